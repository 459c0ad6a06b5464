#include "engine/farm/clock_lines.h"

#include <algorithm>

namespace engine {
namespace {

bool by_number(const ClockItem& a, const ClockItem& b) { return a.seq < b.seq; }

ClockReading reading_of(const ClockFollowed& followed) {
  if (followed.read) return {std::nullopt, *followed.read};
  return {followed.after_utc_ms, {}};
}

}  // namespace

ClockLine& ClockLines::line_of(DeviceId id) {
  if (last_ < lines_.size() && lines_[last_].id == id) return lines_[last_];
  const auto [at, fresh] = index_.try_emplace(id, lines_.size());
  if (fresh) {
    const Branch* branch = find_branch(branches_, id);
    lines_.push_back({id, branch == nullptr ? id : branch->device, branch});
  }
  last_ = at->second;
  return lines_[last_];
}

void ClockLines::add(const Event& e) {
  // Two clocks may be as far apart as this and their difference still be a number. Beyond it no
  // clock is believed anyway.
  constexpr std::int64_t kFarthest = std::int64_t{1} << 60;
  const std::int64_t wall =
      std::clamp(e.stamp.at.time_since_epoch().count(), -kFarthest, kFarthest);
  ClockItem item{e.ref.seq, wall, size_++, -1, credible(e.stamp)};
  if (const auto* followed = std::get_if<ClockFollowed>(&e.body)) {
    item.reading = static_cast<std::int32_t>(readings_.size());
    readings_.push_back(reading_of(*followed));
  }
  line_of(e.ref.device).items.push_back(item);
}

// The lines by their names: what came first must make no difference.
void ClockLines::sort_lines() {
  std::sort(lines_.begin(), lines_.end(),
            [](const ClockLine& a, const ClockLine& b) { return a.id < b.id; });
  for (std::size_t i = 0; i < lines_.size(); ++i) index_[lines_[i].id] = i;
}

void ClockLines::close() {
  sort_lines();
  for (ClockLine& line : lines_)
    if (!std::is_sorted(line.items.begin(), line.items.end(), by_number))
      std::sort(line.items.begin(), line.items.end(), by_number);
  const auto has = [this](const EntryRef& ref) {
    const auto seen = up_to(ref);
    return seen && lines_[seen->line].items[seen->end - 1].seq == ref.seq;
  };
  for (ClockReading& reading : readings_)
    for (const EntryRef& ref : reading.named)
      if (const auto seen = up_to(side_read(branches_, ref, has))) reading.seen.push_back(*seen);
}

std::optional<ClockSeen> ClockLines::up_to(const EntryRef& ref) const {
  const auto at = index_.find(ref.device);
  if (at == index_.end()) return std::nullopt;
  const auto& items = lines_[at->second].items;
  const auto end =
      std::upper_bound(items.begin(), items.end(), ClockItem{.seq = ref.seq}, by_number);
  if (end == items.begin()) return std::nullopt;
  return ClockSeen{at->second, static_cast<std::size_t>(end - items.begin())};
}

}  // namespace engine
