#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

#include "storage/disk/whole_file.h"
#include "ui/commands/commands.h"

namespace ui {
namespace {

int exit_code(engine::Code code) {
  switch (code) {
    case engine::Code::Ok:
      return 0;
    case engine::Code::BadInput:
    case engine::Code::NotFound:
      return 2;
    default:
      return 1;
  }
}

}  // namespace

int say_failure(engine::Code code, const std::string& line) {
  fmt::print(stderr, "{}\n", line);
  return exit_code(code);
}

int say_failure(const engine::Status& why) { return say_failure(why.code(), why.message()); }

std::string wrong_out(const std::string& name) {
  const std::filesystem::path file = name;
  std::error_code ignored;
  if (file.has_parent_path() && !std::filesystem::is_directory(file.parent_path(), ignored))
    return "--out: no such folder: " + file.parent_path().string();
  if (std::filesystem::is_directory(file, ignored))
    return "--out: is a folder, not a file: " + name;
  return {};
}

engine::Result<std::string> read_input(const std::string& file) {
  constexpr std::size_t kMost = std::size_t{64} << 20;
  if (file != "-") return storage::read_whole_file(file, kMost);
  std::string text;
  char piece[1 << 16];
  while (const std::size_t got = std::fread(piece, 1, sizeof piece, stdin)) {
    text.append(piece, got);
    if (text.size() > kMost)
      return engine::Status{engine::Code::BadInput, "standard input: is larger than 64 MiB"};
  }
  if (std::ferror(stdin) != 0)
    return engine::Status{engine::Code::Failed, "standard input: cannot be read"};
  return text;
}

engine::Result<std::string> store_file(const CommonCall& call, const Surroundings& around) {
  return storage::store_path(call.store, around.environment);
}

engine::Result<storage::Store> open_store(const CommonCall& call, const Surroundings& around,
                                          bool create) {
  const auto path = store_file(call, around);
  if (!path.ok()) return path.status();
  storage::JournalOptions options;
  options.device = engine::uuid_text(around.new_id(around.now().at.time_since_epoch().count()));
  options.create = create;
  auto store = storage::Store::open(path.value(), options);
  if (!store.ok() && !create && store.status().code() == engine::Code::NotFound)
    return engine::Status(
        engine::Code::NotFound,
        fmt::format("{}: there is no store; `duskwalk read FILE.csv` makes one", path.value()));
  if (!store.ok() && store.status().code() == engine::Code::BadInput)
    return engine::Status(engine::Code::Damaged,
                          fmt::format("{}: the store is damaged or no Duskwalk store; name another "
                                      "with --store",
                                      path.value()));
  return store;
}

engine::Result<storage::Store> open_whole_store(const CommonCall& call, const Surroundings& around,
                                                bool create) {
  auto store = open_store(call, around, create);
  if (!store.ok() || store.value().damage().empty()) return store;
  if (call.readable) {
    fmt::print(stderr, "{}\n", store.value().damage());
    return store;
  }
  return engine::Status(store.value().writable().code(),
                        store.value().damage() +
                            " (--readable shows what can be read, duskwalk restore --go-on goes on "
                            "with it)");
}

engine::Result<std::vector<storage::Sealed>> records_of(const storage::Store& store) {
  std::vector<storage::Sealed> records;
  const engine::Status read =
      store.journal().replay([&](const storage::Sealed& s) { records.push_back(s); });
  if (!read.ok()) return read;
  return records;
}

}  // namespace ui
