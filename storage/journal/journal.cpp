#include "storage/journal/journal.h"

#include <fmt/format.h>

#include <cstdlib>

#include "storage/disk/summed_file.h"
#include "storage/journal/journal_impl.h"

namespace storage {
namespace {

constexpr int kCommitsUntilRetry = 256;  // how often a spent ballast is tried again

}  // namespace

int Journal::Impl::insert_row(std::int64_t arrival, const Sealed& s) {
  const Record& r = s.record;
  const std::string event = canonical(r);
  insert->bind(1, arrival);
  insert->bind(2, r.device);
  insert->bind(3, r.seq);
  insert->bind(4, r.at_utc_ms);
  insert->bind(5, std::int64_t{r.zone_offset_min});
  insert->bind(6, r.boot_id);
  insert->bind(7, r.since_boot_ms);
  insert->bind(8, r.kind);
  insert->bind(9, s.prev);
  insert->bind(10, s.hash);
  insert->bind(11, event);
  const int rc = insert->step();
  insert->reset();
  return rc == SQLITE_DONE ? SQLITE_OK : rc;
}

int Journal::Impl::write_rows(std::span<const Sealed> events) {
  std::int64_t arrival = store.findings.arrivals;
  for (const Sealed& s : events) {
    const int rc = insert_row(++arrival, s);
    if (rc != SQLITE_OK) return rc;
  }
  return SQLITE_OK;
}

// All or nothing, durable when it returns SQLITE_OK.
int Journal::Impl::write(const Batch& batch) {
  sqlite3* const db = store.db.get();
  if (batch.events.size() == 1 && batch.sides.empty() && batch.renewed.empty())
    return write_rows(batch.events);  // the statement is the transaction
  int rc = run(db, "BEGIN IMMEDIATE");
  if (rc == SQLITE_OK) rc = write_rows(batch.events);
  const auto sides_before = static_cast<std::int64_t>(store.findings.sides.size());
  if (rc == SQLITE_OK) rc = write_sides(db, batch.sides, sides_before);
  if (rc == SQLITE_OK && !batch.renewed.empty()) {
    const Head mine = last(store.findings.meta.device);
    if (mine.seq > 0) rc = write_kept(db, was_row(store.findings.meta.device, mine.seq, mine.hash));
    if (rc == SQLITE_OK) rc = write_device(db, batch.renewed);
  }
  if (rc == SQLITE_OK) rc = run(db, "COMMIT");
  if (rc != SQLITE_OK && sqlite3_get_autocommit(db) == 0) (void)run(db, "ROLLBACK");
  return rc;
}

Status Journal::Impl::commit(const Batch& batch) {
  if (!store.writable.ok()) return store.writable;
  if (batch.events.empty() && batch.sides.empty()) return {};
  sqlite3* const db = store.db.get();
  int rc = write(batch);
  if (is_full(db, rc) && ballast.spend()) rc = write(batch);
  if (rc != SQLITE_OK) return status_of(db, path, rc);
  Findings& f = store.findings;
  f.arrivals += static_cast<std::int64_t>(batch.events.size());
  for (const Sealed& s : batch.events) hold(f.held, s.record.device, s.record.seq, s.hash);
  f.sides.insert(f.sides.end(), batch.sides.begin(), batch.sides.end());
  if (!batch.renewed.empty()) f.meta.device = batch.renewed;
  note_tip();
  retry_ballast();
  return {};
}

// Best effort: an old tip is harmless.
void Journal::Impl::note_tip() {
  if (!tip) {
    auto file = VfsFile::open(options.vfs, tip_path(path), VfsKind::Side, FileUse::Create);
    if (!file.ok()) return;
    tip = std::move(file).value();
  }
  const Findings& f = store.findings;
  if (!tip->write(0, to_text(tip_of(f)))) tip.reset();
}

void Journal::Impl::retry_ballast() {
  if (!ballast.spent() || ++commits_since_spent < kCommitsUntilRetry) return;
  commits_since_spent = 0;
  (void)ballast.make();
}

Journal::Journal(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Journal::~Journal() = default;
Journal::Journal(Journal&&) noexcept = default;
Journal& Journal::operator=(Journal&&) noexcept = default;

Result<Journal> Journal::open(const std::string& path, JournalOptions options) {
  auto store = open_store(path, options);
  if (!store.ok()) return store.status();
  const std::int64_t bytes = options.ballast_bytes;
  auto impl = std::make_unique<Impl>(path, std::move(options), std::move(store).value());
  if (impl->store.writable.ok()) {
    impl->ballast = Ballast(impl->options.vfs, path + ".ballast", bytes);
    impl->note_tip();
    (void)impl->ballast.make();
  }
  return Journal(std::move(impl));
}

Result<Journal> Journal::look(const std::string& path, std::string bytes, JournalOptions options) {
  auto store = open_bytes(path, std::move(bytes), options);
  if (!store.ok()) return store.status();
  return Journal(std::make_unique<Impl>(path, std::move(options), std::move(store).value()));
}

Status Journal::append(const Record& record) { return append_all({&record, 1}); }

Status Journal::append_all(std::span<const Record> records) {
  if (!impl_->store.writable.ok()) return impl_->store.writable;
  Head head = last(device());
  std::vector<Sealed> sealed;
  sealed.reserve(records.size());
  for (const Record& r : records) {
    const Status formed = well_formed(r);
    if (!formed.ok()) return formed;
    if (r.device != device() || r.seq != head.seq + 1) {
      return {
          Code::BadInput,
          fmt::format("The event cannot be stored: number {} of tablet {} is next, not {} of {}.",
                      head.seq + 1, short_name(device()), r.seq, short_name(r.device))};
    }
    sealed.push_back(seal(r, head.hash));
    head = {r.seq, sealed.back().hash};
  }
  return impl_->commit({sealed});
}

Status Journal::replay(const std::function<void(const Sealed&)>& take) const {
  const auto& sides = this->sides();
  auto side = sides.begin();
  std::int64_t arrivals = 0;
  const Status read = replay_after(0, [&](const Sealed& s) {
    for (; side != sides.end() && side->after <= arrivals; ++side) take(side->sealed);
    take(s);
    ++arrivals;
  });
  for (; read.ok() && side != sides.end(); ++side) take(side->sealed);
  return read;
}

Status Journal::Impl::take_rows(Query& query,
                                const std::function<void(const Sealed&)>& take) const {
  Row row;
  int rc = query.step();
  for (; rc == SQLITE_ROW; rc = query.step()) {
    if (!read_row(query, row)) return status_of(store.db.get(), path, SQLITE_CORRUPT);
    take(row.sealed);
  }
  return rc == SQLITE_DONE ? Status{} : status_of(store.db.get(), path, rc);
}

Status Journal::replay_after(std::int64_t arrivals,
                             const std::function<void(const Sealed&)>& take) const {
  const OpenedStore& store = impl_->store;
  if (store.damage) {
    for (const Sealed& s : store.salvaged) take(s);
    return {};
  }
  Query all(store.db.get(),
            "SELECT " DUSKWALK_ROW_COLUMNS " FROM events WHERE arrival > ?1 ORDER BY arrival");
  all.bind(1, arrivals);
  return impl_->take_rows(all, take);
}

Status Journal::replay_of(const std::string& device, std::int64_t from,
                          const std::function<void(const Sealed&)>& take) const {
  const OpenedStore& store = impl_->store;
  const auto take_fit = [&](const Sealed& s) {
    if (s.record.device == device && s.record.seq >= from) take(s);
  };
  if (store.damage) {
    for (const Sealed& s : store.salvaged) take_fit(s);
    return {};
  }
  Query some(store.db.get(), "SELECT " DUSKWALK_ROW_COLUMNS
                             " FROM events WHERE device = ?1 AND seq >= ?2 ORDER BY seq");
  some.bind(1, device);
  some.bind(2, from);
  if (const Status read = impl_->take_rows(some, take); !read.ok()) return read;
  for (const ForkRow& side : sides()) take_fit(side.sealed);
  return {};
}

Status Journal::replay_kinds(const std::string& begin, std::int64_t after,
                             const std::function<void(const Sealed&)>& take) const {
  const OpenedStore& store = impl_->store;
  const auto take_fit = [&](const Sealed& s) {
    if (s.record.kind.starts_with(begin)) take(s);
  };
  for (const ForkRow& side : sides()) take_fit(side.sealed);
  if (store.damage) {
    for (const Sealed& s : store.salvaged) take_fit(s);
    return {};
  }
  Query some(store.db.get(), "SELECT " DUSKWALK_ROW_COLUMNS
                             " FROM events WHERE arrival > ?1 AND substr(kind, 1, ?2) = ?3");
  some.bind(1, after);
  some.bind(2, static_cast<std::int64_t>(begin.size()));
  some.bind(3, begin);
  return impl_->take_rows(some, take);
}

std::int64_t Journal::proven_before() const { return impl_->store.findings.proven_before; }
const std::string& Journal::path() const { return impl_->path; }
const JournalOptions& Journal::options() const { return impl_->options; }
const std::string& Journal::device() const { return impl_->store.findings.meta.device; }
Head Journal::last(const std::string& device) const { return impl_->last(device); }
const KnownEvents& Journal::held() const { return impl_->store.findings.held; }
const std::vector<ForkRow>& Journal::sides() const { return impl_->store.findings.sides; }
std::int64_t Journal::size() const { return impl_->store.findings.arrivals; }
const std::optional<DamageReport>& Journal::damage() const { return impl_->store.damage; }
const Status& Journal::writable() const { return impl_->store.writable; }
bool Journal::ballast_spent() const { return impl_->ballast.spent(); }
bool Journal::restore_ballast() { return impl_->ballast.make(); }

const std::string& Journal::secret() const { return impl_->store.findings.meta.secret; }

Status Journal::make_secret() {
  OpenedStore& store = impl_->store;
  if (!secret().empty()) return {};
  if (!store.writable.ok()) return store.writable;
  std::string secret(kSecretBytes, '\0');
  randombytes_buf(secret.data(), secret.size());
  const int rc = write_secret(store.db.get(), secret);
  if (rc != SQLITE_OK) return status_of(store.db.get(), impl_->path, rc);
  store.findings.meta.secret = std::move(secret);
  return {};
}

Status Journal::keep_rows(std::span<const KeptRow> rows) {
  if (!impl_->store.writable.ok()) return impl_->store.writable;
  if (rows.empty()) return {};
  sqlite3* const db = impl_->store.db.get();
  int rc = run(db, "BEGIN IMMEDIATE");
  for (const KeptRow& row : rows)
    if (rc == SQLITE_OK) rc = write_kept(db, row);
  if (rc == SQLITE_OK) rc = run(db, "COMMIT");
  if (rc != SQLITE_OK && sqlite3_get_autocommit(db) == 0) (void)run(db, "ROLLBACK");
  return rc == SQLITE_OK ? Status{} : status_of(db, impl_->path, rc);
}

std::vector<KeptRow> Journal::kept_rows(const std::string& word) const {
  sqlite3* const db = impl_->store.db.get();
  return db == nullptr ? std::vector<KeptRow>{} : read_kept(db, word);
}

std::vector<Journal::WrittenHere> Journal::written_here() const {
  std::vector<WrittenHere> all;
  constexpr std::size_t kDigits = 64;
  for (const auto& [key, value] : kept_rows("was")) {
    WrittenHere was{key.substr(key.find(' ') + 1), {}};
    const std::size_t blank = value.find(' ');
    was.last.seq = std::strtoll(value.c_str(), nullptr, 10);
    const bool whole = blank != value.npos && value.size() == blank + 1 + kDigits &&
                       from_hex(std::string_view(value).substr(blank + 1), was.last.hash);
    if (whole && was.last.seq > 0) all.push_back(std::move(was));
  }
  return all;
}

Status Journal::renew_device(const std::string& device) {
  OpenedStore& store = impl_->store;
  if (!store.writable.ok()) return store.writable;
  if (!is_uuid_text(device) || store.findings.held.contains(device)) {
    return {Code::BadInput,
            "The new device id must be a lower-case UUID that was never used here."};
  }
  sqlite3* const db = store.db.get();
  const Head mine = last(this->device());
  int rc = run(db, "BEGIN IMMEDIATE");
  if (rc == SQLITE_OK && mine.seq > 0)
    rc = write_kept(db, was_row(this->device(), mine.seq, mine.hash));
  if (rc == SQLITE_OK) rc = write_device(db, device);
  if (rc == SQLITE_OK) rc = run(db, "COMMIT");
  if (rc != SQLITE_OK && sqlite3_get_autocommit(db) == 0) (void)run(db, "ROLLBACK");
  if (rc != SQLITE_OK) return status_of(db, impl_->path, rc);
  store.findings.meta.device = device;
  impl_->note_tip();
  return {};
}

VerifyReport Journal::verify() const {
  const OpenedStore& store = impl_->store;
  VerifyReport report;
  report.events = store.findings.arrivals;
  if (store.damage) {
    report.problems = store.damage->causes;
    return report;
  }
  // The progress mark beside the store may be ahead of a copy.
  const auto mark = store.handed_out ? std::nullopt : read_tip(impl_->options.vfs, impl_->path);
  Findings now = check_store(store.db.get(), mark);
  report.events = now.arrivals;
  report.sides = static_cast<std::int64_t>(now.sides.size());
  report.problems = std::move(now.problems);
  if (auto trees = forks(); trees.ok())
    report.waiting = missing_in(now.held, trees.value());
  else
    report.problems.push_back(trees.status().message());
  return report;
}

}  // namespace storage
