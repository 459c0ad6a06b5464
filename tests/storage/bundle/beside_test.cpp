// The files beside a store: what may lie in their place, and who may read them.
#include <doctest/doctest.h>
#include <sys/stat.h>

#include <fstream>

#include "storage/bundle/exchange.h"
#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace beside_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

constexpr const char* kBeside[] = {".tip", ".ballast", ".checkpoint", ".exchange",
                                   ".exchange-folder"};

std::string content(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// A store that writes all of its files, however few events it has.
storage::JournalOptions all_beside() {
  storage::JournalOptions options;
  options.device = kTablet;
  options.ballast_bytes = 1 << 20;
  options.checkpoint_from = 1;
  return options;
}

// One evening: opened, written, an exchange, closed; and a second opening writes the checkpoint.
void use(const std::string& path, const std::string& shared) {
  for (int day = 0; day < 2; ++day) {
    auto store = storage::Store::open(path, all_beside());
    REQUIRE_MESSAGE(store.ok(), store.status().message());
    REQUIRE_MESSAGE(store.value().writable().ok(), store.value().writable().message());
    const engine::Stamp at = *engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
    const auto event = store.value().next(at, engine::NoteWritten{{}, {}, "note"});
    REQUIRE(store.value().append(event).ok());
    (void)storage::keep_exchange_folder(path, shared);
    (void)storage::exchange(store.value(), {shared, "2026-08-14"});
  }
}

mode_t mode(const std::string& path) {
  struct stat s {};
  return ::lstat(path.c_str(), &s) == 0 ? s.st_mode & 0777 : 0;
}

}  // namespace

TEST_CASE("a link in the place of a file beside the store: what it leads to stays as it was") {
  for (const std::string beside : kBeside) {
    INFO(beside);
    const Folder folder;
    fs::create_directory(folder / "shared");
    std::ofstream(folder / "precious") << "not ours";
    fs::create_symlink(folder / "precious", folder / "farm.journal" + beside);
    use(folder / "farm.journal", folder / "shared");
    CHECK(content(folder / "precious") == "not ours");
  }
}

TEST_CASE("a pipe in the place of a file beside the store keeps nobody waiting") {
  for (const std::string beside : kBeside) {
    INFO(beside);
    const Folder folder;
    fs::create_directory(folder / "shared");
    REQUIRE(::mkfifo((folder / "farm.journal" + beside).c_str(), 0600) == 0);
    use(folder / "farm.journal", folder / "shared");
  }
}

TEST_CASE("a link in the place of the log: read and not written, with a line that names it") {
  for (const std::string beside : {"-wal", "-journal"}) {
    INFO(beside);
    const Folder folder;
    fs::create_directory(folder / "shared");
    use(folder / "farm.journal", folder / "shared");
    std::ofstream(folder / "precious") << "not ours";
    fs::create_symlink(folder / "precious", folder / "farm.journal" + beside);
    {
      auto store = storage::Store::open(folder / "farm.journal", all_beside());
      REQUIRE_MESSAGE(store.ok(), store.status().message());
      CHECK(store.value().farm().log.size() == 2);
      const std::string why = store.value().writable().message();
      CHECK_MESSAGE(why.find("farm.journal" + beside + " is no plain file") != why.npos, why);
    }
    CHECK(content(folder / "precious") == "not ours");
    fs::remove(folder / "farm.journal" + beside);
    use(folder / "farm.journal", folder / "shared");
  }
}

TEST_CASE("a store and all beside it are for their owner only, whatever the umask") {
  for (const mode_t mask : {0, 022, 0277}) {
    INFO(mask);
    const Folder folder;
    fs::create_directory(folder / "shared");
    const mode_t before = ::umask(mask);
    auto open = storage::Store::open(folder / "new/farm.journal", all_beside());
    REQUIRE(open.ok());
    CHECK(mode(folder / "new/farm.journal-wal") == 0600);
    open = storage::Status(storage::Code::Failed, "closed");
    ::umask(before);
    fs::permissions(folder / "shared", fs::perms::owner_all);
    ::umask(mask == 0277 ? 022 : mask);
    use(folder / "new/farm.journal", folder / "shared");
    ::umask(before);
    CHECK(mode(folder / "new") == 0700);
    CHECK(mode(folder / "new/farm.journal") == 0600);
    for (const std::string beside : kBeside)
      CHECK_MESSAGE(mode(folder / "new/farm.journal" + beside) == 0600, beside);
  }
}

}  // namespace beside_test
