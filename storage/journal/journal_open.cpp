#include "storage/journal/journal_open.h"

#include <fmt/format.h>

#include <filesystem>

#include "storage/disk/paths.h"
#include "storage/disk/summed_file.h"
#include "storage/disk/vfs_file.h"
#include "storage/journal/journal_testing.h"
#include "storage/journal/recover.h"
#include "storage/journal/store_probe.h"
#include "storage/journal/wal_image.h"

namespace storage {
namespace {

namespace fs = std::filesystem;

// One open of one path: its steps, in the order of the header comment.
class Opening {
 public:
  Opening(const std::string& path, const JournalOptions& options)
      : path_(path), options_(options) {}

  // Only what was handed out is looked at, nothing at the path.
  Result<OpenedStore> look_at_bytes(std::string bytes) {
    handed_out_ = std::move(bytes);
    auto store = read_only();
    if (!store.ok()) return store;
    store.value().handed_out = true;
    if (!store.value().damage) store.value().writable = status_of(nullptr, path_, SQLITE_BUSY);
    return store;
  }

  Result<OpenedStore> run_all() {
    look_ = look_at(options_.vfs, path_);
    if (look_.busy) return status_of(nullptr, path_, SQLITE_BUSY);
    if (!look_.in_the_way.empty()) return look_.size == 0 ? blocked() : read_only();
    if (look_.size == 0 && (look_.wal_size > 0 || look_.tip_there)) return damaged({"it is empty"});
    if (look_.size == 0) return options_.create ? make_new() : not_there();
    if (look_.half_made) return make_new();
    if (!look_.header.ours) return foreign_or_damaged();
    if (look_.header.version > kFormat) return newer_or_damaged();
    return look_.writable ? open_live() : read_only();
  }

 private:
  [[nodiscard]] Status say(Code code, const std::string& what) const {
    return {code, fmt::format("The journal {}: {}", path_, what)};
  }
  // A line about a file that is not the journal itself.
  [[nodiscard]] Status blocked() const {
    return say(Code::ReadOnly,
               fmt::format("{} is no plain file, and nothing new can be saved. Take "
                           "it away, then start again.",
                           look_.in_the_way));
  }
  [[nodiscard]] Status not_there() const { return say(Code::NotFound, "there is no such file."); }

  [[nodiscard]] std::string store_bytes() const {
    if (handed_out_) return *handed_out_;
    return file_bytes(options_.vfs, path_, VfsKind::Store);
  }
  [[nodiscard]] std::string wal_bytes() const {
    if (handed_out_) return {};
    return file_bytes(options_.vfs, wal_path(path_), VfsKind::Side);
  }
  [[nodiscard]] Db image() const { return open_image(merged_image(store_bytes(), wal_bytes())); }

  // A file that is not ours may be of any size: it is looked through piece by piece, each with the
  // end of the one before, so that an event across a seam is found.
  [[nodiscard]] bool events_in(const std::string& path, VfsKind kind) const {
    constexpr std::int64_t kPiece = 8 << 20, kSeam = 2 << 20;
    static_assert(kSeam > static_cast<std::int64_t>(kLargestBody) + 4096);  // of any one event
    const auto file = VfsFile::open(options_.vfs, path, kind, FileUse::Read);
    const std::int64_t size = file.ok() ? file.value().size() : 0;
    for (std::int64_t at = 0; at < size; at += kPiece)
      if (holds_events(file.value().read(at, kPiece + kSeam))) return true;
    return false;
  }

  Result<OpenedStore> foreign_or_damaged() {
    const bool ours = look_.tip_there || events_in(path_, VfsKind::Store) ||
                      events_in(wal_path(path_), VfsKind::Side);
    if (ours) return damaged({"its first bytes are broken"});
    return say(Code::BadInput, "this file is not a journal. Choose another file name.");
  }

  // The version stands twice; a newer program writes both, a broken byte changes one.
  Result<OpenedStore> newer_or_damaged() {
    const Db copy = image();
    if (copy == nullptr || read_meta(copy.get()).format <= kFormat) {
      return damaged({"its version number is broken"});
    }
    return damaged({"it was written by a newer version of this program"}, Code::TooNew);
  }

  Result<OpenedStore> damaged(std::vector<std::string> causes, Code code = Code::Damaged);
  Result<OpenedStore> read_only();
  Result<OpenedStore> reread(const Findings& live, int rc);
  Result<OpenedStore> make_new();
  void remove_empty(const Status& why) const;
  Result<OpenedStore> open_live();
  Result<OpenedStore> check_live(Db db);
  Status settle(sqlite3* db);
  static bool is_sealed(sqlite3* db, const Proven& proven);
  int connect(Db& db, bool create);
  void drop(Db db);

  const std::string path_;
  const JournalOptions& options_;
  Look look_;
  std::optional<std::string> handed_out_;
};

std::string damage_line(const std::string& path, const DamageReport& report, Code code) {
  const std::int64_t lost = count(report.missing) + report.sides_missing;
  const std::int64_t whole = count(report.readable) + report.sides_readable;
  std::string line =
      code == Code::TooNew
          ? fmt::format("The journal {}: {}. Update this one first: ", path, report.causes.front())
          : fmt::format("The journal {} is damaged ({}): ", path, report.causes.front());
  line += lost == 0 ? fmt::format("all {} events can still be read. ", whole)
                    : fmt::format("{} of {} events cannot be read (", lost, lost + whole);
  std::string list;
  for (const auto& [device, seqs] : report.missing) {
    list +=
        fmt::format("{}tablet {}: {}", list.empty() ? "" : "; ", short_name(device), to_text(seqs));
  }
  if (report.sides_missing > 0)
    list += fmt::format("{}of other sides of forks: {}", list.empty() ? "" : "; ",
                        report.sides_missing);
  if (lost != 0) line += list + "). ";
  return line + "Nothing was changed. Copy the file away, then start a new journal from it.";
}

Result<OpenedStore> Opening::damaged(std::vector<std::string> causes, Code code) {
  Salvage saved = salvage(store_bytes(), wal_bytes(), look_.tip);
  OpenedStore store;
  store.damage.emplace();
  store.damage->causes = std::move(causes);
  store.damage->readable = std::move(saved.readable);
  store.damage->missing = std::move(saved.missing);
  store.damage->sides_readable = static_cast<std::int64_t>(saved.sides.size());
  store.damage->sides_missing = saved.sides_missing;
  store.damage->line = damage_line(path_, *store.damage, code);
  store.writable = Status(code, store.damage->line);
  for (const Sealed& s : saved.events) {
    hold(store.findings.held, s.record.device, s.record.seq, s.hash);
  }
  store.findings.arrivals = static_cast<std::int64_t>(saved.events.size());
  for (Sealed& s : saved.sides)
    store.findings.sides.push_back({std::move(s), store.findings.arrivals});
  if (look_.tip) store.findings.meta.device = look_.tip->device;
  store.salvaged = std::move(saved.events);
  return store;
}

Result<OpenedStore> Opening::read_only() {
  Db copy = image();
  if (copy == nullptr) return say(Code::Failed, "there is not enough memory to read it.");
  Findings findings = check_store(copy.get(), look_.tip);
  if (!findings.whole()) return damaged(std::move(findings.problems));
  OpenedStore store;
  store.db = std::move(copy);
  store.findings = std::move(findings);
  store.writable =
      look_.in_the_way.empty() ? status_of(nullptr, path_, SQLITE_READONLY) : blocked();
  return store;
}

// SQLite could not use the file, or found it broken: judge a copy of the bytes.
Result<OpenedStore> Opening::reread(const Findings& live, int rc) {
  auto store = read_only();
  const int kind = rc & 0xff;
  const bool denied = kind == SQLITE_READONLY || kind == SQLITE_CANTOPEN || kind == SQLITE_PERM;
  if (!store.ok() || store.value().damage || denied) return store;
  const std::string cause = live.whole() ? sqlite3_errstr(rc) : live.problems.front();
  return say(Code::Failed, fmt::format("the disk gave an error while reading ({}). Try again; "
                                       "if it comes back, copy the file to another disk.",
                                       cause));
}

// The connection as it stays, but with everything off that writes without being asked.
int Opening::connect(Db& db, bool create) {
  sqlite3* raw = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | (create ? SQLITE_OPEN_CREATE : 0);
  const char* const vfs = options_.vfs.empty() ? nullptr : options_.vfs.c_str();
  int rc = sqlite3_open_v2(path_.c_str(), &raw, flags, vfs);
  db.reset(raw);
  if (rc != SQLITE_OK) return rc;
  sqlite3_extended_result_codes(raw, 1);
  sqlite3_db_config(raw, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  sqlite3_db_config(raw, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  const bool weak = options_.testing != nullptr && options_.testing->weak_sync;
  rc = run(raw,
           "PRAGMA locking_mode = EXCLUSIVE; PRAGMA page_size = 4096; PRAGMA mmap_size = 0;"
           "PRAGMA wal_autocheckpoint = 0; PRAGMA cell_size_check = ON;"
           "PRAGMA trusted_schema = OFF; PRAGMA temp_store = MEMORY;");
  if (rc != SQLITE_OK) return rc;
  rc = run(raw, weak ? "PRAGMA synchronous = NORMAL" : "PRAGMA synchronous = FULL");
  return rc == SQLITE_OK ? run(raw, "SELECT count(*) FROM sqlite_schema") : rc;
}

bool Opening::is_sealed(sqlite3* db, const Proven& proven) {
  const std::string secret = read_meta(db).secret;
  return !secret.empty() && seal_of(proven.sum, secret) == proven.seal;
}

// Closes without a trace: SQLite makes an empty log when it only looks.
void Opening::drop(Db db) {
  db.reset();
  if (!look_.wal_there && file_size(options_.vfs, wal_path(path_)) == 0) {
    remove_file(options_.vfs, wal_path(path_));
  }
}

// A store that could not be made leaves nothing; one that another program is making is let alone.
void Opening::remove_empty(const Status& why) const {
  if (why.code() == Code::Busy || file_size(options_.vfs, path_) > 0) return;
  remove_file(options_.vfs, path_);
}

Result<OpenedStore> Opening::make_new() {
  const bool was_there = file_exists(options_.vfs, path_);
  Db db;
  int rc = connect(db, true);
  if (rc == SQLITE_OK && has_no_tables(db.get())) {
    if (!options_.create) return not_there();
    if (!is_uuid_text(options_.device)) {
      return say(Code::BadInput, "a new journal needs a device id (a lower-case UUID).");
    }
    rc = make_tables(db.get(), options_.device);
  }
  if (rc != SQLITE_OK) {
    const Status why = status_of(db.get(), path_, rc);
    db.reset();
    if (!was_there) remove_empty(why);
    return why;
  }
  return check_live(std::move(db));
}

Result<OpenedStore> Opening::open_live() {
  Db db;
  const int rc = connect(db, false);
  if ((rc & 0xff) == SQLITE_BUSY) return status_of(db.get(), path_, rc);
  if (rc == SQLITE_OK && !look_.tip_there && has_no_tables(db.get())) {
    db.reset();
    return options_.create ? make_new() : not_there();
  }
  if (rc == SQLITE_OK) return check_live(std::move(db));
  drop(std::move(db));
  return reread({}, rc);
}

Result<OpenedStore> Opening::check_live(Db db) {
  Findings findings;
  const bool proven = options_.proven && is_sealed(db.get(), *options_.proven);
  if (proven) findings = check_later(db.get(), options_.proven->tip, look_.tip);
  if (!proven || !findings.whole()) findings = check_store(db.get(), look_.tip);
  if (!findings.whole()) {
    drop(std::move(db));
    return reread(findings, SQLITE_CORRUPT);
  }
  if (const int rc = guard_sides(db.get()); rc != SQLITE_OK) return status_of(db.get(), path_, rc);
  Status settled = settle(db.get());
  if (!settled.ok()) return settled;
  OpenedStore store;
  store.db = std::move(db);
  store.findings = std::move(findings);
  return store;
}

// What a killed program left in the log may not be on the disk yet, though we can read it: flush
// before anybody sees it. Then fold the log into the store as far as there is room.
Status Opening::settle(sqlite3* db) {
  int rc = run(db, "PRAGMA journal_mode = WAL");
  sqlite3_file* log = nullptr;
  sqlite3_file_control(db, "main", SQLITE_FCNTL_JOURNAL_POINTER, &log);
  const bool has_log = log != nullptr && log->pMethods != nullptr;
  if (rc == SQLITE_OK && has_log && look_.wal_size > 0) {
    rc = log->pMethods->xSync(log, SQLITE_SYNC_NORMAL);
  }
  if (rc != SQLITE_OK) return status_of(db, path_, rc);
  if (look_.wal_size > 0) (void)run(db, "PRAGMA wal_checkpoint(TRUNCATE)");
  const int pages = options_.testing == nullptr ? 1000 : options_.testing->checkpoint_pages;
  sqlite3_wal_autocheckpoint(db, pages);
  sqlite3_db_config(db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, nullptr);
  return {};
}

}  // namespace

Result<OpenedStore> open_store(const std::string& path, const JournalOptions& options) {
  if (options.vfs.empty()) {
    std::error_code error;
    if (fs::is_directory(path, error)) {
      return {Code::BadInput,
              fmt::format("The journal {}: this is a folder. Name a file in it.", path)};
    }
    if (options.create) {
      const Status made = make_folders_for(path);
      if (!made.ok()) return made;
    }
  }
  return Opening(path, options).run_all();
}

Result<OpenedStore> open_bytes(const std::string& path, std::string bytes,
                               const JournalOptions& options) {
  return Opening(path, options).look_at_bytes(std::move(bytes));
}

}  // namespace storage
