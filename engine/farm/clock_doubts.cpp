// Whose wall clock is believed. Each entry of a tablet that another clock contradicts is looked at
// by itself, with the first look that each tablet took at it after it was written: the looks of a
// tablet rise with the entries, so that one pass over the line serves all.
#include "engine/farm/clock_doubts.h"

#include <algorithm>
#include <cstdlib>
#include <limits>

namespace engine {
namespace {

constexpr std::int64_t kDay = 86'400'000;
constexpr std::int64_t kFar = Ms{kClockFarOff}.count();
constexpr std::int64_t kLately = 60 * kDay;  // a tablet is used that often in the season
// Longer than any winter: a clock that stood still since a tablet was put away is not that far off.
constexpr std::int64_t kSeasons = 300 * kDay;
// Before 2020: nobody had this program then.
constexpr std::int64_t kBeforeAll = 1'577'836'800'000;

bool nearer(std::int64_t wall, std::int64_t one, std::int64_t other) {
  return std::abs(wall - one) < std::abs(wall - other);
}

}  // namespace

std::vector<WrongClock> ClockDoubts::settle() {
  note_impossible();
  if (!all_.has_readings()) return found();
  note_looks();
  std::vector<std::size_t> doubted;
  for (std::size_t i = 0; i < all_.lines().size(); ++i)
    if (contradicted(i)) doubted.push_back(i);
  any_ = !doubted.empty();
  if (any_) note_alike();
  for (const std::size_t line : doubted) hear(line);
  return found();
}

void ClockDoubts::note_impossible() {
  for (const ClockLine& line : all_.lines())
    for (const ClockItem& item : line.items)
      if (!item.believed) note_wrong(line, item, item.wall);
}

void ClockDoubts::note_look(std::size_t line, const Look& look) {
  const DeviceId tablet = all_.lines()[look.line].tablet;
  Reader& reader = readers_[line].try_emplace(tablet, Reader{tablet}).first->second;
  reader.looks.push_back(look);
}

// A tablet's reading of others is a look at its own entries too.
void ClockDoubts::note_looks() {
  readers_.resize(all_.lines().size());
  for (std::size_t l = 0; l < all_.lines().size(); ++l) {
    const auto& items = all_.lines()[l].items;
    for (std::size_t i = 0; i < items.size(); ++i) {
      if (items[i].reading < 0 || !items[i].believed) continue;
      const auto& seen = all_.reading(items[i]).seen;
      for (const ClockSeen& s : seen)
        if (s.line != l) note_look(s.line, {s.end, items[i].wall, l, i});
      if (!seen.empty()) note_look(l, {i, items[i].wall, l, i});
    }
  }
  for (Readers& readers : readers_)
    for (auto& [tablet, reader] : readers)
      std::stable_sort(reader.looks.begin(), reader.looks.end(),
                       [](const Look& a, const Look& b) { return a.end < b.end; });
}

bool ClockDoubts::contradicted(std::size_t line) const {
  const auto& items = all_.lines()[line].items;
  std::vector<std::int64_t> latest;  // up to each entry
  std::int64_t last = std::numeric_limits<std::int64_t>::min();
  for (const ClockItem& item : items) {
    if (item.believed) last = std::max(last, item.wall);
    latest.push_back(last);
  }
  for (const auto& [tablet, reader] : readers_[line])
    for (const Look& look : reader.looks)
      if (look.end > 0 && latest[look.end - 1] > look.wall + kFar) return true;
  return false;
}

// Which tablets a reading found at about the time that it says itself.
void ClockDoubts::note_alike() {
  for (const ClockLine& line : all_.lines()) {
    std::map<std::size_t, std::size_t> seen;  // by line, how far
    for (const ClockItem& item : line.items) {
      if (item.reading < 0) continue;
      for (const ClockSeen& s : all_.reading(item).seen)
        seen[s.line] = std::max(seen[s.line], s.end);
      std::set<DeviceId>& alike = alike_[item.reading];
      for (const auto& [other, end] : seen) {
        const ClockItem& last = all_.lines()[other].items[end - 1];
        if (!item.believed || !last.believed) continue;  // what is not may be too far to subtract
        const std::int64_t before = item.wall - last.wall;
        if (before <= kLately && before >= -kFar) alike.insert(all_.lines()[other].tablet);
      }
    }
  }
}

ClockDoubts::Said ClockDoubts::said_of(std::size_t line, std::size_t i) {
  const ClockLine& of = all_.lines()[line];
  const std::int64_t wall = of.items[i].wall;
  Said said;
  bool own_look = false;
  for (auto& [tablet, reader] : readers_[line]) {
    while (reader.next < reader.looks.size() && reader.looks[reader.next].end <= i) ++reader.next;
    if (reader.next == reader.looks.size()) continue;
    const Look& look = reader.looks[reader.next];
    own_look = own_look || tablet == of.tablet;
    if (look.wall < wall - kFar)
      said.behind.push_back(&look);
    else if (look.wall <= wall + kLately)
      said.then.insert(tablet);
  }
  if (!own_look) said.then.insert(of.tablet);
  for (const Look* look : said.behind) {
    const ClockLine& reader = all_.lines()[look->line];
    said.earlier.insert(reader.tablet);
    if (wall - look->wall < kSeasons) continue;
    for (const DeviceId other : alike_[reader.items[look->item].reading])
      if (other != of.tablet && !said.then.contains(other)) said.earlier.insert(other);
  }
  return said;
}

ClockDoubts::Off ClockDoubts::off_by(const ClockLine& line, const ClockItem& item,
                                     const Said& said) const {
  const Look& look =
      **std::min_element(said.behind.begin(), said.behind.end(),
                         [](const Look* a, const Look* b) { return a->wall < b->wall; });
  const ClockItem& last = line.items[look.end - 1];
  const std::int64_t ahead = last.wall - look.wall;
  Off off{item.wall, std::nullopt, look.wall};
  if (last.believed && ahead > 0 && item.wall - ahead <= look.wall) off.ahead = ahead;
  return off;
}

void ClockDoubts::put_back(ClockItem& item, Off& off) {
  off.wall = item.wall;
  item.believed = off.ahead.has_value();
  if (off.ahead) off.about = item.wall -= *off.ahead;
}

// How much its wall clock was ahead at most: it had read entries that others wrote before.
std::optional<std::int64_t> ClockDoubts::most_ahead(const ClockItem& item) const {
  std::optional<std::int64_t> latest;
  if (item.reading < 0) return latest;
  for (const ClockSeen& s : all_.reading(item).seen) {
    const ClockItem& last = all_.lines()[s.line].items[s.end - 1];
    if (last.believed) latest = std::max(latest.value_or(last.wall), last.wall);
  }
  return latest ? std::optional(item.wall - *latest) : latest;
}

void ClockDoubts::hear(std::size_t l) {
  ClockLine& line = all_.lines()[l];
  std::optional<Off> off;
  std::optional<std::int64_t> most;
  for (std::size_t i = 0; i < line.items.size(); ++i) {
    ClockItem& item = line.items[i];
    if (!item.believed) continue;
    const std::int64_t wall = item.wall;
    const Said said = said_of(l, i);
    const bool others = std::any_of(said.then.begin(), said.then.end(),
                                    [&](DeviceId id) { return id != line.tablet; });
    if (said.earlier.size() >= 2 && said.earlier.size() > said.then.size())
      off = off_by(line, item, said);
    else if (!off || others || !nearer(wall, off->wall, off->about))
      off.reset();
    if (!off) {
      note_behind(line, item, said);
      continue;
    }
    if (const auto ahead = most_ahead(item)) most = ahead;
    if (off->ahead && most) off->ahead = std::max(*off->ahead, *most);
    put_back(item, *off);
    note_wrong(line, item, wall);
  }
}

void ClockDoubts::note_wrong(const ClockLine& line, const ClockItem& item, std::int64_t wall) {
  if (!noted_.insert({line.id, item.seq}).second) return;
  WrongClock& wrong = wrong_[line.id];
  ++wrong.entries;
  if (wrong.entries > 1 && wrong.entry.seq > item.seq) return;
  wrong.entry = {line.id, item.seq};
  wrong.says_utc_ms = wall;
}

// The entry's clock is believed, or it is open which of the two is wrong.
void ClockDoubts::note_behind(const ClockLine& line, const ClockItem& item, const Said& said) {
  for (const Look* look : said.behind) {
    const ClockLine& reader = all_.lines()[look->line];
    const ClockItem& by = reader.items[look->item];
    if (look->wall < kBeforeAll ||
        (said.then.size() >= 2 && said.then.size() > said.earlier.size()))
      note_wrong(reader, by, look->wall);
    else
      open_[line.id] = {{line.id, item.seq}, item.wall, 1, EntryRef{reader.id, by.seq}};
  }
}

std::vector<WrongClock> ClockDoubts::found() const {
  std::vector<WrongClock> all;
  for (const auto& [id, wrong] : wrong_) all.push_back(wrong);
  for (const auto& [id, open] : open_)
    if (!wrong_.contains(id) && !wrong_.contains(open.or_else->device)) all.push_back(open);
  return all;
}

}  // namespace engine
