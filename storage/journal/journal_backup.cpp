// Copies through SQLite's backup on the journal's own connection, and a store made from a copy.
#include <fmt/format.h>

#include <filesystem>

#include "storage/disk/part_file.h"
#include "storage/disk/paths.h"
#include "storage/disk/whole_file.h"
#include "storage/journal/backup.h"
#include "storage/journal/journal_impl.h"

namespace storage {
namespace {

namespace fs = std::filesystem;

// The line about a half-made file, with the name that the keeper gave instead.
Status renamed(const Status& about, const std::string& part, const std::string& name) {
  std::string line = about.message();
  if (const std::size_t at = line.find(part); at != line.npos) line.replace(at, part.size(), name);
  return {about.code(), line};
}

Status check_copy(sqlite3* copy, const std::string& path, const Findings& from) {
  const Findings findings = check_store(copy, std::nullopt);
  bool same = findings.whole() && findings.held.size() == from.held.size() &&
              findings.sides.size() == from.sides.size();
  for (const auto& [device, mine] : from.held) {
    const auto it = findings.held.find(device);
    same = same && it != findings.held.end() && it->second.head == mine.head;
  }
  if (same) return {};
  return {Code::Damaged, fmt::format("The copy {}: it does not read back as written. Use another "
                                     "disk.",
                                     path)};
}

}  // namespace

struct Backup::State {
  State(const Journal::Impl* from, std::string to, PartFile into)
      : journal(from), path(std::move(to)), part(std::move(into)) {}
  State(const State&) = delete;
  State& operator=(const State&) = delete;
  ~State() { give_up(); }

  // The part removes itself, with what SQLite left beside it.
  void give_up() {
    if (run != nullptr) sqlite3_backup_finish(run);
    run = nullptr;
    copy.reset();
    part.reset();
  }

  const Journal::Impl* journal;
  std::string path;
  std::optional<PartFile> part;  // none when done, or given up
  Db copy;
  sqlite3_backup* run = nullptr;
  bool done = false;
};

Backup::Backup(std::unique_ptr<State> state) : state_(std::move(state)) {}
Backup::~Backup() = default;
Backup::Backup(Backup&&) noexcept = default;
Backup& Backup::operator=(Backup&&) noexcept = default;

Result<Backup> Backup::begin(const Journal& journal, const std::string& path) {
  const OpenedStore& store = journal.impl_->store;
  if (store.damage) return store.writable;
  std::error_code error;
  if (fs::exists(path, error))
    return {Code::BadInput, fmt::format("The copy {}: a file of that name exists.", path)};
  auto part = PartFile::make(path, PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  auto state = std::make_unique<State>(journal.impl_.get(), path, std::move(part).value());
  sqlite3* raw = nullptr;
  const int rc = sqlite3_open_v2(state->part->path().c_str(), &raw, SQLITE_OPEN_READWRITE, nullptr);
  state->copy.reset(raw);
  if (rc != SQLITE_OK) return status_of(raw, path, rc);
  sqlite3_extended_result_codes(raw, 1);
  state->run = sqlite3_backup_init(raw, "main", store.db.get(), "main");
  if (state->run == nullptr) return status_of(raw, path, sqlite3_errcode(raw));
  return Backup(std::move(state));
}

double Backup::part() const {
  if (state_->done) return 1;
  const int all = state_->run == nullptr ? 0 : sqlite3_backup_pagecount(state_->run);
  return all == 0 ? 0 : 1 - static_cast<double>(sqlite3_backup_remaining(state_->run)) / all;
}

// One file without a log beside it; it turns into a working journal when it is opened as one.
Result<bool> Backup::step(int pages) {
  if (state_->done) return true;
  if (state_->run == nullptr) return Status(Code::Failed, "The copy failed before.");
  sqlite3* const to = state_->copy.get();
  int rc = sqlite3_backup_step(state_->run, pages);
  if (rc == SQLITE_OK || rc == SQLITE_BUSY || rc == SQLITE_LOCKED) return false;
  const int finished = sqlite3_backup_finish(state_->run);
  state_->run = nullptr;
  if (rc == SQLITE_DONE) rc = finished;
  if (rc == SQLITE_OK) rc = run(to, "PRAGMA journal_mode = DELETE");
  if (rc == SQLITE_OK) rc = forget_secret(to);
  const std::string part = state_->part->path();
  Status done = rc == SQLITE_OK ? Status{} : status_of(to, part, rc);
  if (done.ok()) done = check_copy(to, part, state_->journal->store.findings);
  state_->copy.reset();
  if (done.ok()) done = state_->part->finish(PartFile::Over::Nothing);
  state_->done = done.ok();
  state_->give_up();
  if (done.ok()) return true;
  return renamed(done, part, state_->path);
}

Status Journal::backup_to(const std::string& path) const {
  auto backup = Backup::begin(*this, path);
  if (!backup.ok()) return backup.status();
  for (;;) {
    const auto done = backup.value().step(-1);
    if (!done.ok()) return done.status();
    if (done.value()) return {};
  }
}

namespace {

Result<Journal> open_copy(const std::string& part) {
  JournalOptions options;
  options.create = false;
  options.ballast_bytes = 0;
  auto journal = Journal::open(part, options);
  if (journal.ok() && journal.value().damage())
    return Status(Code::Damaged, journal.value().damage()->line);
  return journal;
}

// Opens the copy as the store it is to become, and gives it its own id.
Result<Restored> adopt_copy(const std::string& part, const std::string& new_device) {
  auto journal = open_copy(part);
  if (!journal.ok()) return journal.status();
  const std::string was = journal.value().device();
  const Status renewed = journal.value().renew_device(new_device);
  if (!renewed.ok()) return renewed;
  return Restored{journal.value().size(), was};
}

// A backup has no log beside it: that would be a store in use, and not all of it in this file.
Status looks_like_backup(const std::string& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error))
    return {Code::NotFound, fmt::format("The backup {}: there is no such file.", file)};
  if (fs::exists(wal_path(file), error) && fs::file_size(wal_path(file), error) > 0)
    return {Code::BadInput,
            fmt::format("The backup {}: this is a store in use, not all of it is in "
                        "this file. Make a backup of it first.",
                        file)};
  return {};
}

Result<std::vector<Sealed>> entries_in(const std::string& part) {
  const auto journal = open_copy(part);
  if (!journal.ok()) return journal.status();
  std::vector<Sealed> events;
  const Status read = journal.value().replay([&](const Sealed& s) { events.push_back(s); });
  if (!read.ok()) return read;
  return events;
}

}  // namespace

Result<std::vector<Sealed>> read_backup(const std::string& file, const std::string& scratch) {
  if (Status fine = looks_like_backup(file); !fine.ok()) return fine;
  auto part = PartFile::make(scratch, PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  const Status copied = copy_into(part.value(), file);
  if (!copied.ok()) return copied;
  auto events = entries_in(part.value().path());
  if (events.ok()) return events;
  return renamed(events.status(), part.value().path(), file);
}

Result<Restored> restore_backup(const std::string& file, const std::string& path,
                                const std::string& new_device) {
  std::error_code error;
  if (Status fine = looks_like_backup(file); !fine.ok()) return fine;
  for (const std::string& there : {path, wal_path(path), tip_path(path)})
    if (fs::exists(fs::symlink_status(there, error)))
      return {Code::BadInput,
              fmt::format("The store {}: {} exists. Choose another file name.", path, there)};
  if (Status made = make_folders_for(path); !made.ok()) return made;
  auto part = PartFile::make(path, PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  if (Status copied = copy_into(part.value(), file); !copied.ok()) return copied;
  auto restored = adopt_copy(part.value().path(), new_device);
  if (!restored.ok()) return renamed(restored.status(), part.value().path(), file);
  if (Status named = part.value().finish(PartFile::Over::Nothing); !named.ok()) return named;
  return restored;
}

}  // namespace storage
