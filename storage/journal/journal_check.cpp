#include "storage/journal/journal_check.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/words/words.h"
#include "storage/journal/chain_link.h"

namespace storage {
namespace {

void check_structure(sqlite3* db, Findings& found) {
  Query check(db, "PRAGMA integrity_check(1)");
  if (check.step() != SQLITE_ROW) {
    found.problems.push_back("the database cannot be read");
  } else if (check.text(0) != "ok") {
    found.problems.push_back("the database is broken inside: " + check.text(0));
  }
  if (!has_our_tables(db)) found.problems.push_back("the tables or triggers are not ours");
}

void check_meta(sqlite3* db, Findings& found) {
  found.meta = read_meta(db);
  if (!found.meta.proven || !is_uuid_text(found.meta.device)) {
    found.problems.push_back("the store's own id or version is broken");
  }
}

// Walks the events of one device after the other, in order of their numbers.
class ChainWalk {
 public:
  explicit ChainWalk(Findings& found) : found_(found) {}

  void take(const Sealed& s) {
    const Record& r = s.record;
    const bool same = r.device == device_;
    const std::int64_t before = same ? seq_ : 0;
    if (r.seq == before + 1) {
      if (s.prev != (same ? hash_ : Hash{})) say(r, "does not follow from the event before it");
    } else if (r.device == found_.meta.device) {
      say(r, fmt::format("comes after {}: the events between are missing", before));
    }
    if (r.seq < 1) say(r, "has an impossible number");
    device_ = r.device;
    seq_ = r.seq;
    hash_ = s.hash;
    hold(found_.held, r.device, r.seq, s.hash);
  }

 private:
  void say(const Record& r, const std::string& what) {
    found_.problems.push_back(
        fmt::format("event {} of tablet {} {}", r.seq, short_name(r.device), what));
  }

  Findings& found_;
  std::string device_;
  std::int64_t seq_ = 0;
  Hash hash_{};
};

void check_chains(sqlite3* db, Findings& found) {
  Query all(db, "SELECT " DUSKWALK_ROW_COLUMNS " FROM events ORDER BY device, seq");
  ChainWalk walk(found);
  Row row;
  int rc = all.step();
  for (; rc == SQLITE_ROW; rc = all.step()) {
    if (read_row(all, row)) {
      walk.take(row.sealed);
    } else {
      found.problems.push_back(fmt::format(
          "the event that arrived as number {} is not as it was written", all.number(0)));
    }
  }
  if (rc != SQLITE_DONE) found.problems.push_back("not every event can be read");
}

void check_arrivals(sqlite3* db, Findings& found) {
  Query sums(db, "SELECT count(*), ifnull(max(arrival), 0) FROM events");
  if (sums.step() != SQLITE_ROW) {
    found.problems.push_back("the events cannot be counted");
    return;
  }
  found.arrivals = sums.number(1);
  if (sums.number(0) == found.arrivals) return;
  found.problems.push_back(
      fmt::format("{} events arrived but {} are there", found.arrivals, sums.number(0)));
}

void check_tip(sqlite3* db, const ProgressMark& tip, Findings& found) {
  if (tip.sides > static_cast<std::int64_t>(found.sides.size()))
    found.problems.emplace_back("entries of other sides of a fork were stored but are gone");
  Query one(db, "SELECT hash FROM events WHERE device = ?1 AND seq = ?2");
  for (const auto& [device, noted] : tip.held) {
    const auto mine = found.held.find(device);
    const SeqRanges lost =
        mine == found.held.end() ? noted.seqs : noted.seqs.without(mine->second.seqs);
    if (!lost.empty()) {
      found.problems.push_back(fmt::format("events {} of tablet {} were stored but are gone",
                                           to_text(lost), short_name(device)));
      continue;
    }
    one.reset();
    one.bind(1, device);
    one.bind(2, noted.head.seq);
    Hash hash{};
    if (one.step() != SQLITE_ROW || !one.hash(0, hash) || hash != noted.head.hash) {
      found.problems.push_back(fmt::format("event {} of tablet {} is not the one that was stored",
                                           noted.head.seq, short_name(device)));
    }
  }
}

// ---- after what was proven before ----

constexpr std::int64_t kReadAgain = 25'000;  // earlier events an opening reads once more

class LaterCheck {
 public:
  LaterCheck(sqlite3* db, Findings& found)
      : db_(db),
        found_(found),
        link_(db, "SELECT prev, hash FROM events WHERE device = ?1 AND seq = ?2") {}

  void run(const ProgressMark& proven) {
    found_.held = proven.held;
    found_.arrivals = found_.proven_before = proven.arrivals;
    for (const auto& [device, held] : proven.held) check_head(device, held.head);
    found_.sides = read_sides(db_, found_.problems);
    if (static_cast<std::int64_t>(found_.sides.size()) != proven.sides)
      say("entries of other sides of a fork came since");
    read_again(proven.arrivals);
    read_later(proven.arrivals);
  }

 private:
  std::optional<ChainLink> link(const std::string& device, std::int64_t seq) {
    link_.reset();
    link_.bind(1, device);
    link_.bind(2, seq);
    ChainLink found{.seq = seq};
    if (link_.step() != SQLITE_ROW || !link_.hash(0, found.prev) || !link_.hash(1, found.hash))
      return std::nullopt;
    return found;
  }

  void say(const char* what) { found_.problems.emplace_back(what); }

  void check_head(const std::string& device, const Head& head) {
    const auto here = link(device, head.seq);
    if (!here || here->hash != head.hash) say("the newest event of a tablet is another one");
  }

  // Rows of places from..to; all must be there.
  void read_again(std::int64_t arrivals) {
    const std::int64_t parts = arrivals / kReadAgain + 1;
    Query newest(db_, "SELECT ifnull(max(arrival), 0) FROM events");
    const std::int64_t last = newest.step() == SQLITE_ROW ? newest.number(0) : 0;
    const std::int64_t from = last % parts * kReadAgain;
    const std::int64_t to = std::min(from + kReadAgain, arrivals);
    Query some(db_, "SELECT " DUSKWALK_ROW_COLUMNS
                    " FROM events WHERE arrival > ?1 AND arrival <= ?2 ORDER BY arrival");
    some.bind(1, from);
    some.bind(2, to);
    Row row;
    std::int64_t read = 0;
    while (some.step() == SQLITE_ROW && read_row(some, row)) ++read;
    if (read != to - from) say("an earlier event is not as it was written");
  }

  void read_later(std::int64_t arrivals) {
    Query later(db_,
                "SELECT " DUSKWALK_ROW_COLUMNS " FROM events WHERE arrival > ?1 ORDER BY arrival");
    later.bind(1, arrivals);
    Row row;
    int rc = later.step();
    for (; rc == SQLITE_ROW; rc = later.step()) {
      if (!read_row(later, row) || row.arrival != ++found_.arrivals)
        return say("a later event is not as it was written");
      check_links(row.sealed);
      hold(found_.held, row.sealed.record.device, row.sealed.record.seq, row.sealed.hash);
    }
    if (rc != SQLITE_DONE) say("not every event can be read");
  }

  void check_links(const Sealed& s) {
    const Record& r = s.record;
    const auto before = link(r.device, r.seq - 1);
    const auto after = link(r.device, r.seq + 1);
    const bool first = r.seq == 1 && s.prev == Hash{};
    if (before ? before->hash != s.prev : (r.seq == 1 && !first))
      say("an event does not follow from the one before it");
    if (after && after->prev != s.hash) say("an event does not lead to the one after it");
    if (r.seq < 1 || (!before && !first && r.device == found_.meta.device))
      say("an event of this tablet is missing");
  }

  sqlite3* db_;
  Findings& found_;
  Query link_;
};

}  // namespace

Findings check_later(sqlite3* db, const ProgressMark& proven,
                     const std::optional<ProgressMark>& tip) {
  Findings found;
  check_meta(db, found);
  if (!has_our_tables(db) || found.meta.device != proven.device)
    found.problems.emplace_back("this is not the store that was proven");
  if (found.whole()) LaterCheck(db, found).run(proven);
  if (found.whole() && tip) check_tip(db, *tip, found);
  return found;
}

ProgressMark tip_of(const Findings& found) {
  return {found.meta.device, found.arrivals, found.held,
          static_cast<std::int64_t>(found.sides.size())};
}

std::string short_name(const std::string& device) {
  const auto id = engine::uuid_from_text(device);
  return id ? engine::short_device(engine::DeviceId{*id}) : device;
}

Findings check_store(sqlite3* db, const std::optional<ProgressMark>& tip) {
  Findings found;
  check_structure(db, found);
  check_meta(db, found);
  check_chains(db, found);
  check_arrivals(db, found);
  found.sides = read_sides(db, found.problems);
  if (tip) check_tip(db, *tip, found);
  return found;
}

}  // namespace storage
