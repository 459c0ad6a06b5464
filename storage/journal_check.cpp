#include "storage/journal_check.h"

#include <fmt/format.h>

#include "engine/register/words.h"

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

void check_tip(sqlite3* db, const Tip& tip, Findings& found) {
  Query one(db, "SELECT hash FROM events WHERE device = ?1 AND seq = ?2");
  for (const auto& [device, noted] : tip.held) {
    const auto mine = found.held.find(device);
    const SeqSet lost =
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

}  // namespace

std::string short_name(const std::string& device) {
  const auto id = engine::uuid_from_text(device);
  return id ? engine::short_device(engine::DeviceId{*id}) : device;
}

Findings check_store(sqlite3* db, const std::optional<Tip>& tip) {
  Findings found;
  check_structure(db, found);
  check_meta(db, found);
  check_chains(db, found);
  check_arrivals(db, found);
  if (tip) check_tip(db, *tip, found);
  return found;
}

}  // namespace storage
