// A complete copy in one file, through SQLite's backup on the journal's own connection.
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "storage/journal_impl.h"

namespace storage {
namespace {

namespace fs = std::filesystem;

// One file without a log beside it; it turns into a working journal when it is opened as one.
int copy_to(sqlite3* from, const std::string& path, Db& to) {
  sqlite3* raw = nullptr;
  int rc = sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
  to.reset(raw);
  if (rc != SQLITE_OK) return rc;
  sqlite3_extended_result_codes(raw, 1);
  sqlite3_backup* const backup = sqlite3_backup_init(raw, "main", from, "main");
  if (backup == nullptr) return sqlite3_errcode(raw);
  rc = sqlite3_backup_step(backup, -1);
  const int finished = sqlite3_backup_finish(backup);
  if (rc == SQLITE_DONE) rc = finished;
  return rc == SQLITE_OK ? run(raw, "PRAGMA journal_mode = DELETE") : rc;
}

Status flush(const std::string& path) {
  const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  const int rc = fd < 0 ? -1 : ::fsync(fd);
  const int error = errno;
  if (fd >= 0) ::close(fd);
  if (rc == 0) return {};
  return {Code::Failed, fmt::format("The copy {}: cannot be flushed to the disk ({}).", path,
                                    std::strerror(error))};
}

Status check_copy(sqlite3* copy, const std::string& path, const Held& held) {
  const Findings findings = check_store(copy, std::nullopt);
  bool same = findings.whole() && findings.held.size() == held.size();
  for (const auto& [device, mine] : held) {
    const auto it = findings.held.find(device);
    same = same && it != findings.held.end() && it->second.head == mine.head;
  }
  if (same) return {};
  return {Code::Damaged, fmt::format("The copy {}: it does not read back as written. Use another "
                                     "disk.",
                                     path)};
}

Status give_name(const std::string& from, const std::string& to) {
  // A hard link refuses to replace; where there are none (FAT), look first and rename.
  std::error_code error;
  fs::create_hard_link(from, to, error);
  if (!error) {
    fs::remove(from, error);
  } else if (fs::exists(to)) {
    return {Code::BadInput, fmt::format("The copy {}: a file of that name exists.", to)};
  } else if (fs::rename(from, to, error); error) {
    return {Code::Failed, fmt::format("The copy {}: {}.", to, error.message())};
  }
  return flush(fs::absolute(to).parent_path().string());
}

}  // namespace

Status Journal::backup_to(const std::string& path) const {
  const OpenedStore& store = impl_->store;
  if (store.damage) return store.writable;
  std::error_code error;
  if (fs::exists(path, error)) {
    return {Code::BadInput, fmt::format("The copy {}: a file of that name exists.", path)};
  }
  const std::string part = path + ".part";
  fs::remove(part, error);
  Db copy;
  const int rc = copy_to(store.db.get(), part, copy);
  Status done = rc == SQLITE_OK ? Status{} : status_of(copy.get(), part, rc);
  if (done.ok()) done = check_copy(copy.get(), part, store.findings.held);
  copy.reset();
  if (done.ok()) done = flush(part);
  if (done.ok()) done = give_name(part, path);
  if (!done.ok()) fs::remove(part, error);
  return done;
}

}  // namespace storage
