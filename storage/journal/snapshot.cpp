#include "storage/journal/snapshot.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "storage/journal/journal_impl.h"

namespace storage {
namespace {

// One at a time: the store belongs to one program, and that makes one snapshot after the other.
std::string snapshot_path(const std::string& store_path) { return store_path + ".look-part"; }

// A file of that name that is new, for its owner only.
int make_file(const std::string& path) {
  ::unlink(path.c_str());
  return ::open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
}

}  // namespace

struct Snapshot::State {
  State() = default;
  State(const State&) = delete;
  State& operator=(const State&) = delete;
  ~State() {
    finish();
    if (file >= 0) ::close(file);
  }

  int finish() {
    const int rc = run == nullptr ? SQLITE_OK : sqlite3_backup_finish(run);
    run = nullptr;
    copy.reset();
    return rc;
  }

  std::string path;  // the store's, for what is said
  int file = -1;
  Db copy;
  sqlite3_backup* run = nullptr;
  bool done = false;
};

Snapshot::Snapshot(std::unique_ptr<State> state) : state_(std::move(state)) {}
Snapshot::~Snapshot() = default;
Snapshot::Snapshot(Snapshot&&) noexcept = default;
Snapshot& Snapshot::operator=(Snapshot&&) noexcept = default;

Result<Snapshot> Snapshot::begin(const Journal& journal) {
  const OpenedStore& store = journal.impl_->store;
  if (store.damage) return store.writable;
  auto state = std::make_unique<State>();
  state->path = journal.path();
  const std::string path = snapshot_path(journal.path());
  const int made = make_file(path);
  if (made < 0) return Status(Code::Failed, fmt::format("{}: {}", path, std::strerror(errno)));
  ::close(made);
  sqlite3* raw = nullptr;
  int rc = sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
  state->copy.reset(raw);
  state->file = ::open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
  ::unlink(path.c_str());
  // Without a name there is no place for a rollback journal; a copy that breaks off is thrown away.
  if (rc == SQLITE_OK) rc = run(raw, "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF");
  if (rc != SQLITE_OK || state->file < 0) return status_of(raw, state->path, rc);
  state->run = sqlite3_backup_init(raw, "main", store.db.get(), "main");
  if (state->run == nullptr) return status_of(raw, state->path, sqlite3_errcode(raw));
  return Snapshot(std::move(state));
}

Result<bool> Snapshot::step(int pages) {
  if (state_->done) return true;
  if (state_->run == nullptr) return Status(Code::Failed, "The snapshot failed before.");
  const int rc = sqlite3_backup_step(state_->run, pages);
  if (rc == SQLITE_OK || rc == SQLITE_BUSY || rc == SQLITE_LOCKED) return false;
  const int finished = state_->finish();
  state_->done = rc == SQLITE_DONE && finished == SQLITE_OK;
  if (state_->done) return true;
  return status_of(nullptr, state_->path, rc == SQLITE_DONE ? finished : rc);
}

int Snapshot::fd() const { return state_->file; }

void remove_left_snapshot(const std::string& store_path) {
  ::unlink(snapshot_path(store_path).c_str());
}

}  // namespace storage
