#include "storage/journal/recover.h"

#include <algorithm>
#include <functional>
#include <map>
#include <tuple>

#include "storage/journal/events_jsonl.h"
#include "storage/journal/fork_rows.h"
#include "storage/journal/wal_image.h"

namespace storage {
namespace {

constexpr std::string_view kEventStart = "{\"at_utc_ms\":";
constexpr std::string_view kSideStart = "{\"event\":";
constexpr std::size_t kSmallestRow = 300;  // bytes; bounds how many events an image can hold

using Key = std::pair<std::string, std::int64_t>;  // device, seq
using Rows = std::map<Key, std::vector<Row>>;      // arrival 0: found outside the tables
struct Finds {
  Rows rows;
  std::map<Hash, Sealed> sides;
  std::int64_t sides_noted = 0;  // how many there were
};

void add(Finds& finds, const Row& row) {
  std::vector<Row>& rows = finds.rows[{row.sealed.record.device, row.sealed.record.seq}];
  const bool known = std::any_of(rows.begin(), rows.end(),
                                 [&](const Row& r) { return r.sealed.hash == row.sealed.hash; });
  if (!known) rows.push_back(row);
}

void read_tables(const std::string& image, Finds& finds) {
  const Db db = open_image(image);
  if (db == nullptr) return;
  finds.sides_noted = std::max(finds.sides_noted, count_sides(db.get()));
  std::vector<std::string> ignored;
  for (ForkRow& side : read_sides(db.get(), ignored))
    finds.sides[side.sealed.hash] = std::move(side.sealed);
  Query all(db.get(), "SELECT " DUSKWALK_ROW_COLUMNS " FROM events ORDER BY arrival");
  Row row;
  int rc = all.step();
  for (; rc == SQLITE_ROW; rc = all.step()) {
    if (read_row(all, row)) add(finds, row);
  }
  if (rc == SQLITE_DONE) return;
  Query one(db.get(), "SELECT " DUSKWALK_ROW_COLUMNS " FROM events WHERE arrival = ?1");
  const auto bound = static_cast<std::int64_t>(image.size() / kSmallestRow + 1);
  for (std::int64_t arrival = 1; one.valid() && arrival <= bound; ++arrival) {
    one.reset();
    one.bind(1, arrival);
    if (one.step() == SQLITE_ROW && read_row(one, row)) add(finds, row);
  }
}

// The JSON object that `text` begins with; empty when it does not end within a page.
std::string_view object_at(std::string_view text) {
  int depth = 0;
  bool quoted = false;
  const std::size_t end = std::min(text.size(), kPageSize);
  for (std::size_t i = 0; i < end; ++i) {
    const char c = text[i];
    if (quoted && c == '\\') ++i;
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '{') ++depth;
    if (c == '}' && --depth == 0) return text.substr(0, i + 1);
  }
  return {};
}

// An event in the raw bytes: prev, hash and canonical bytes stand side by side in a row.
std::optional<Row> event_at(std::string_view bytes, std::size_t at) {
  Row row;
  Sealed& s = row.sealed;
  if (at < s.prev.size() + s.hash.size()) return std::nullopt;
  const char* const hashes = bytes.data() + at - s.prev.size() - s.hash.size();
  std::copy_n(hashes, s.prev.size(), reinterpret_cast<char*>(s.prev.data()));
  std::copy_n(hashes + s.prev.size(), s.hash.size(), reinterpret_cast<char*>(s.hash.data()));
  const std::string_view text = object_at(bytes.substr(at));
  if (text.empty() || seal_hash(s.prev, text) != s.hash) return std::nullopt;
  auto record = parse_canonical(text);
  if (!record.ok()) return std::nullopt;
  s.record = std::move(record).value();
  return row;
}

// One of another side of a fork: a line as in bundles, not more than a page.
std::optional<Sealed> side_at(std::string_view bytes, std::size_t at) {
  if (at < kSideStart.size() || !bytes.substr(at - kSideStart.size()).starts_with(kSideStart))
    return std::nullopt;
  const std::string_view line = object_at(bytes.substr(at - kSideStart.size()));
  auto sealed = read_events_jsonl(std::string(line) + "\n");
  if (!sealed.ok() || sealed.value().size() != 1) return std::nullopt;
  return std::move(sealed.value().front());
}

// Calls one of the two for each event; ends when that says so.
void search_bytes(std::string_view bytes, const std::function<bool(const Row&)>& more,
                  const std::function<bool(Sealed)>& more_sides) {
  for (std::size_t at = bytes.find(kEventStart); at != std::string_view::npos;
       at = bytes.find(kEventStart, at + 1)) {
    if (const auto row = event_at(bytes, at); row && !more(*row)) return;
    if (auto side = side_at(bytes, at); side && !more_sides(std::move(*side))) return;
  }
}

Finds find_all(std::string_view store, std::string_view wal) {
  Finds finds;
  std::vector<std::string> images{merged_image(store, wal), merged_image(store, {})};
  for (std::size_t i = 0; i < 2; ++i) images.push_back(with_fresh_header(images[i]));
  for (const std::string& image : images) read_tables(image, finds);
  const auto keep = [&](const Row& row) {
    add(finds, row);
    return true;
  };
  const auto keep_side = [&](Sealed side) {
    finds.sides[side.hash] = std::move(side);
    return true;
  };
  search_bytes(store, keep, keep_side);
  search_bytes(wal, keep, keep_side);
  return finds;
}

// Two proven events under one number (one was taken back before it was stored): the chain says
// which is right, from the newest down.
void choose(Rows& finds, const std::optional<ProgressMark>& tip) {
  const Row* later = nullptr;
  for (auto it = finds.rbegin(); it != finds.rend(); ++it) {
    const auto& [device, seq] = it->first;
    Hash want{};
    if (later != nullptr && later->sealed.record.device == device &&
        later->sealed.record.seq == seq + 1) {
      want = later->sealed.prev;
    } else if (tip && tip->held.contains(device) && tip->held.at(device).head.seq == seq) {
      want = tip->held.at(device).head.hash;
    }
    auto& rows = it->second;
    const auto right =
        std::find_if(rows.begin(), rows.end(), [&](const Row& r) { return r.sealed.hash == want; });
    if (right != rows.end()) std::iter_swap(rows.begin(), right);
    later = &rows.front();
  }
}

// An event found outside the tables comes right after the one before it on its device.
std::vector<Sealed> in_order(const Rows& finds) {
  std::vector<std::tuple<std::int64_t, Key, const Sealed*>> order;
  std::string device;
  std::int64_t arrival = 0;
  for (const auto& [key, rows] : finds) {
    if (key.first != device) arrival = 0;
    device = key.first;
    if (rows.front().arrival != 0) arrival = rows.front().arrival;
    order.emplace_back(arrival, key, &rows.front().sealed);
  }
  std::sort(order.begin(), order.end());
  std::vector<Sealed> events;
  events.reserve(order.size());
  for (const auto& entry : order) events.push_back(*std::get<2>(entry));
  return events;
}

}  // namespace

Salvage salvage(std::string_view store, std::string_view wal,
                const std::optional<ProgressMark>& tip) {
  Finds finds = find_all(store, wal);
  choose(finds.rows, tip);
  Salvage saved;
  saved.events = in_order(finds.rows);
  const auto noted = std::max(finds.sides_noted, tip ? tip->sides : 0);
  const auto found = static_cast<std::int64_t>(finds.sides.size());
  saved.sides_missing = std::max<std::int64_t>(noted - found, 0);
  for (const Sealed& s : saved.events) finds.sides.erase(s.hash);
  for (auto& [hash, side] : finds.sides) saved.sides.push_back(std::move(side));
  for (const auto& [key, rows] : finds.rows) saved.readable[key.first].add(key.second);
  SeqRangesByDevice known = saved.readable;
  if (tip) {
    for (const auto& [device, held] : tip->held) {
      for (const SeqRange& r : held.seqs.ranges()) known[device].add(r);
    }
  }
  for (auto& [device, seqs] : known) {
    // Only the own device has no gaps by right; without a tip nobody knows which one that is.
    if (!tip || device == tip->device) seqs.add(SeqRange{1, seqs.top()});
    SeqRanges lost = seqs.without(saved.readable[device]);
    if (!lost.empty()) saved.missing[device] = std::move(lost);
  }
  return saved;
}

bool holds_events(std::string_view bytes) {
  bool found = false;
  const auto end = [&](const auto&) {
    found = true;
    return false;
  };
  search_bytes(bytes, end, end);
  return found;
}

}  // namespace storage
