// Merging: the union of what two stores hold.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "storage/journal/journal_impl.h"

namespace storage {
namespace {

enum class Fit { New, Known, Side };

// Decides for one event after the other how it comes into the store, remembering those of this
// batch.
class Merge {
 public:
  Merge(sqlite3* db, const Findings& here)
      : here_(here), find_(db, "SELECT prev, hash FROM events WHERE device = ?1 AND seq = ?2") {
    for (const ForkRow& side : here.sides) note_branch(side.sealed), take_side(side.sealed);
    for (const auto& [device, mine] : here.held) {
      const auto& ranges = mine.seqs.ranges();
      if (ranges.empty()) continue;
      const auto runs = static_cast<std::int64_t>(ranges.size());
      add_gaps(device, ranges.front().first == 1 ? runs - 1 : runs);
    }
  }

  // Whether taking it as that would leave too many gaps or branches.
  bool over_bounds(const Sealed& s, Fit fit) {
    if (fit == Fit::Side && !sides_.contains(s.prev))
      return branches_ >= kMostBranches || branches_of_[s.record.device] >= kMostBranchesOfOne;
    return fit == Fit::New && more_gaps(s) > 0 &&
           (gaps_ >= kMostGaps || gaps_of_[s.record.device] >= kMostGapsOfOne);
  }

  Fit judge(const Sealed& s) {
    const auto [device, seq] = std::pair{s.record.device, s.record.seq};
    const auto same = link(device, seq);
    if ((same && same->hash == s.hash) || sides_.contains(s.hash)) return Fit::Known;
    if (same) return Fit::Side;
    const auto before = link(device, seq - 1);
    const auto after = link(device, seq + 1);
    if (before ? before->hash != s.prev : (seq == 1 && s.prev != Hash{})) return Fit::Side;
    if (after && after->prev != s.hash) return Fit::Side;
    // This tablet's own numbers have no gaps in the table: a copy's stay together beside them.
    return is_own(s) && seq > 1 && !before ? Fit::Side : Fit::New;
  }
  void take(const Sealed& s) {
    add_gaps(s.record.device, more_gaps(s));
    taken_[{s.record.device, s.record.seq}] = {s.record.seq, s.hash, s.prev};
  }
  void take_side(const Sealed& s) { sides_.insert(s.hash); }
  // Before it is taken: it begins a branch where it follows none.
  void note_branch(const Sealed& s) {
    if (sides_.contains(s.prev)) return;
    ++branches_;
    ++branches_of_[s.record.device];
  }
  [[nodiscard]] bool is_own(const Sealed& s) const { return s.record.device == here_.meta.device; }

 private:
  // How many more runs of missing numbers there are with it: it opens one below, closes one above.
  int more_gaps(const Sealed& s) {
    const auto [device, seq] = std::pair{s.record.device, s.record.seq};
    const bool opens = seq > 1 && !link(device, seq - 1),
               closes = link(device, seq + 1).has_value();
    return static_cast<int>(opens) - static_cast<int>(closes);
  }
  void add_gaps(const std::string& device, std::int64_t more) {
    gaps_ += more;
    gaps_of_[device] += more;
  }

  std::optional<ChainLink> link(const std::string& device, std::int64_t seq) {
    const auto it = taken_.find({device, seq});
    if (it != taken_.end()) return it->second;
    const auto mine = here_.held.find(device);
    if (mine == here_.held.end() || !mine->second.seqs.holds(seq)) return std::nullopt;
    find_.reset();
    find_.bind(1, device);
    find_.bind(2, seq);
    ChainLink found{.seq = seq};
    if (find_.step() != SQLITE_ROW || !find_.hash(0, found.prev) || !find_.hash(1, found.hash)) {
      return std::nullopt;
    }
    return found;
  }

  const Findings& here_;
  Query find_;
  std::map<std::pair<std::string, std::int64_t>, ChainLink> taken_;
  std::set<Hash> sides_;
  std::int64_t gaps_ = 0, branches_ = 0;
  std::map<std::string, std::int64_t> gaps_of_, branches_of_;
};

}  // namespace

Result<Adopted> Journal::adopt_all(std::vector<Sealed> events) {
  if (!impl_->store.writable.ok()) return impl_->store.writable;
  auto whole = VerifiedEvents::of(std::move(events));
  return whole.ok() ? adopt_all(std::move(whole).value()) : whole.status();
}

// Follows from what the store holds, and from options.device, which no other store was given.
std::string Journal::unused_id() const {
  std::string id = engine::text(derived_id(options().device, last(device()).hash));
  while (id == device() || held().contains(id)) id = engine::text(derived_id(id, Hash{}));
  return id;
}

Result<Adopted> Journal::adopt_all(VerifiedEvents whole) {
  if (!impl_->store.writable.ok()) return impl_->store.writable;
  std::vector<Sealed> events = std::move(whole).take();
  Merge merge(impl_->store.db.get(), impl_->store.findings);
  Adopted result;
  std::vector<Sealed> fresh;
  std::vector<ForkRow> sides;
  for (std::size_t i = 0; i < events.size(); ++i) {
    Sealed& s = events[i];
    const Fit fit = merge.judge(s);
    if (fit == Fit::Known) ++result.known;
    if (merge.over_bounds(s, fit)) {
      ++result.over_bounds[s.record.device];
      continue;
    }
    result.renewed = result.renewed || (fit != Fit::Known && merge.is_own(s));
    if (fit == Fit::Side) {
      merge.note_branch(s);
      merge.take_side(s);
      sides.push_back({s, size() + static_cast<std::int64_t>(fresh.size())});
      result.forks.push_back({s.record.device, s.record.seq});
    }
    if (fit != Fit::New) continue;
    merge.take(s);
    fresh.push_back(std::move(s));
    result.taken.push_back(i);
  }
  const std::string id = result.renewed ? unused_id() : "";
  const Status stored = impl_->commit({fresh, sides, id});
  if (!stored.ok()) return stored;
  result.added = static_cast<std::int64_t>(fresh.size() + sides.size());
  return result;
}

bool Journal::would_renew(std::span<const Sealed> events) const {
  if (!impl_->store.writable.ok()) return false;
  Merge merge(impl_->store.db.get(), impl_->store.findings);
  return std::any_of(events.begin(), events.end(), [&](const Sealed& s) {
    return merge.is_own(s) && merge.judge(s) != Fit::Known;
  });
}

Status Journal::adopt(const Sealed& event) { return adopt_all(std::vector{event}).status(); }

Result<std::vector<ChainLink>> Journal::links_of(const std::string& device) const {
  std::vector<ChainLink> all;
  for (const auto& [s, after] : sides())
    if (s.record.device == device) all.push_back({s.record.seq, s.hash, s.prev});
  Query mine(impl_->store.db.get(), "SELECT seq, hash, prev FROM events WHERE device = ?1");
  mine.bind(1, device);
  ChainLink link;
  int rc = mine.step();
  for (; rc == SQLITE_ROW; rc = mine.step()) {
    link.seq = mine.number(0);
    if (mine.hash(1, link.hash) && mine.hash(2, link.prev)) all.push_back(link);
  }
  if (rc != SQLITE_DONE) return status_of(impl_->store.db.get(), path(), rc);
  return all;
}

Result<ForkTrees> Journal::forks() const {
  std::set<std::string> devices;
  for (const auto& [s, after] : sides()) devices.insert(s.record.device);
  ForkTrees trees;
  for (const std::string& device : devices) {
    auto links = links_of(device);
    if (!links.ok()) return links.status();
    trees.emplace(device, ForkTree(device, std::move(links).value()));
  }
  return trees;
}

std::optional<Sealed> Journal::entry_at(const std::string& device, std::int64_t seq) const {
  if (impl_->store.damage) {
    for (const Sealed& s : impl_->store.salvaged)
      if (s.record.device == device && s.record.seq == seq) return s;
    return std::nullopt;
  }
  Query one(impl_->store.db.get(),
            "SELECT " DUSKWALK_ROW_COLUMNS " FROM events WHERE device = ?1 AND seq = ?2");
  one.bind(1, device);
  one.bind(2, seq);
  Row row;
  if (one.step() != SQLITE_ROW || !read_row(one, row)) return std::nullopt;
  return std::move(row.sealed);
}

std::optional<Hash> Journal::hash_at(const std::string& device, std::int64_t seq) const {
  const auto entry = entry_at(device, seq);
  return entry ? std::optional(entry->hash) : std::nullopt;
}

Result<Journal> rescue(const Journal& from, const std::string& path, JournalOptions options) {
  if (from.held().contains(options.device)) {
    return {Code::BadInput, "The new journal needs a device id of its own."};
  }
  auto fresh = Journal::open(path, std::move(options));
  if (!fresh.ok()) return fresh;
  if (fresh.value().size() != 0) {
    return {Code::BadInput, fmt::format("The journal {}: it holds events already. Choose another "
                                        "file name.",
                                        path)};
  }
  std::vector<Sealed> events;
  const Status read = from.replay([&](const Sealed& s) { events.push_back(s); });
  if (!read.ok()) return read;
  const auto adopted = fresh.value().adopt_all(std::move(events));
  if (!adopted.ok()) return adopted.status();
  std::vector<KeptRow> rows = from.kept_rows("signed");
  for (KeptRow& row : from.kept_rows("was")) rows.push_back(std::move(row));
  if (const Head mine = from.last(from.device()); mine.seq > 0)
    rows.push_back(was_row(from.device(), mine.seq, mine.hash));
  if (const Status kept = fresh.value().keep_rows(rows); !kept.ok()) return kept;
  return fresh;
}

}  // namespace storage
