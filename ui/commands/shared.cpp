#include <fmt/format.h>
#include <poll.h>

#include <cstdio>
#include <filesystem>

#include "engine/words/contradictions.h"
#include "engine/words/offer_words.h"
#include "storage/disk/whole_file.h"
#include "storage/journal/look_server.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

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
  fmt::print(stderr, "{}\n", for_terminal(line));
  return exit_code(code);
}

int say_failure(const engine::Status& why) { return say_failure(why.code(), why.message()); }

std::string wrong_out(const std::string& name) {
  if (name == "-") return {};
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

namespace {

storage::JournalOptions options_for(const Surroundings& around, bool create) {
  storage::JournalOptions options;
  options.device = engine::uuid_text(around.new_id(around.now().at.time_since_epoch().count()));
  options.create = create;
  return options;
}

engine::Result<storage::Store> whole(engine::Result<storage::Store> store, const CommonCall& call) {
  if (!store.ok() || store.value().damage().empty()) return store;
  if (call.readable) {
    fmt::print(stderr, "{}\n", for_terminal(store.value().damage()));
    return store;
  }
  return engine::Status(store.value().writable().code(),
                        store.value().damage() +
                            " (--readable shows what can be read, duskwalk restore --go-on goes on "
                            "with it)");
}

}  // namespace

engine::Result<storage::Store> open_store(const CommonCall& call, const Surroundings& around,
                                          bool create) {
  const auto path = store_file(call, around);
  if (!path.ok()) return path.status();
  const storage::JournalOptions options = options_for(around, create);
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
  return whole(open_store(call, around, create), call);
}

// A command that writes has the store for a moment only and answers nobody: that one is waited for.
engine::Result<storage::Store> open_any_to_look(const CommonCall& call,
                                                const Surroundings& around) {
  constexpr std::chrono::milliseconds kPatience{3000}, kMoment{100};
  constexpr int kMoments = 10;
  for (int moment = 0;; ++moment) {
    auto store = open_store(call, around, false);
    if (store.ok() || store.status().code() != engine::Code::Busy) return store;
    const std::string path = store_file(call, around).value();
    auto bytes = storage::look_through_open_program(path, kPatience);
    if (bytes.ok())
      return storage::Store::look(path, std::move(bytes).value(), options_for(around, false));
    if (bytes.status().code() != engine::Code::Busy) return bytes.status();
    if (moment == kMoments || !rest(around, kMoment)) return store;
  }
}

engine::Result<storage::Store> open_to_look(const CommonCall& call, const Surroundings& around) {
  return whole(open_any_to_look(call, around), call);
}

bool rest(const Surroundings& around, std::chrono::milliseconds time) {
  pollfd stop{around.stop_fd, POLLIN, 0};  // poll(2) passes over a descriptor below zero
  (void)::poll(&stop, 1, static_cast<int>(time.count()));
  return !around.stopped();
}

void print_contradictions(const engine::Farm& farm) {
  const auto found = engine::contradictions(farm);
  say("Contradictions: {}.\n", found.size());
  for (const engine::Contradicted& c : found) say("- {}\n", engine::words(c, farm));
  const auto offers = engine::offers(farm);
  if (offers.empty()) return;
  say("Setup of other tablets, to be looked at under Register, Other tablets: {}.\n",
      offers.size());
  for (const engine::Offer& offer : offers) say("- {}\n", engine::words(offer, farm));
}

void print_held_back(const storage::Store& store) {
  for (const storage::HeldTablet& held : store.counting().held_back()) {
    say("{}\n", storage::held_line(store, held));
    if (held.why != storage::HeldWhy::Refused)
      say("  duskwalk pair --take-in {0}, or --keep-out {0}, or later\n", held.shown());
  }
}

engine::Result<std::vector<storage::Sealed>> records_of(const storage::Store& store) {
  std::vector<storage::Sealed> records;
  const engine::Status read =
      store.journal().replay([&](const storage::Sealed& s) { records.push_back(s); });
  if (!read.ok()) return read;
  return records;
}

}  // namespace ui
