#include "engine/farm/clocks.h"

#include <algorithm>
#include <utility>

namespace engine {

Clocks::Clocks(const Log& log, const Branches& branches) {
  CommonClock common(branches);
  log.scan(0, [&](std::size_t, const Entry& e) {
    common.add(e.event);
    note(e.event);
  });
  common.count();
  for (const auto& [device, clock] : common.last()) ends_[device].clock = clock;
  wrong_ = common.wrong();
  in_doubt_ = common.in_doubt();
}

void Clocks::note(const Event& e) {
  End& end = ends_[e.ref.device];
  end.seq = std::max(end.seq, e.ref.seq);
  if (credible(e.stamp)) end.wall = std::max(end.wall, e.stamp.at.time_since_epoch().count());
  const auto* followed = std::get_if<ClockFollowed>(&e.body);
  if (followed == nullptr || !followed->read) return;
  auto& read = read_[e.ref.device];
  for (const EntryRef& ref : *followed->read)
    read[ref.device] = std::max(read[ref.device], ref.seq);
}

void Clocks::note_wrong(const Event& e) {
  const auto of = std::find_if(wrong_.begin(), wrong_.end(), [&](const WrongClock& w) {
    return w.entry.device == e.ref.device && !w.or_else;
  });
  WrongClock& wrong = of == wrong_.end() ? wrong_.emplace_back() : *of;
  wrong.entry = e.ref;
  wrong.says_utc_ms = e.stamp.at.time_since_epoch().count();
  ++wrong.entries;
}

void Clocks::take(const Event& e) {
  note(e);
  End& end = ends_[e.ref.device];
  if (!credible(e.stamp)) return note_wrong(e);
  const std::int64_t wall = e.stamp.at.time_since_epoch().count();
  end.clock = std::max(end.clock, wall);
  if (!std::holds_alternative<ClockFollowed>(e.body)) return;
  end.clock = std::max(end.clock, latest_beside(e.ref.device) + 1);
  in_doubt_ = in_doubt_ || std::any_of(ends_.begin(), ends_.end(), [&](const auto& other) {
                return other.second.wall - wall > Ms{kClockFarOff}.count();
              });
}

std::vector<EntryRef> Clocks::unread_by(DeviceId device) const {
  std::vector<EntryRef> unread;
  const auto read = read_.find(device);
  for (const auto& [other, end] : ends_) {
    if (other == device) continue;
    if (read != read_.end())
      if (const auto at = read->second.find(other);
          at != read->second.end() && at->second >= end.seq)
        continue;
    unread.push_back({other, end.seq});
  }
  return unread;
}

std::int64_t Clocks::latest_beside(DeviceId device) const {
  std::int64_t latest = 0;
  for (const auto& [other, end] : ends_)
    if (other != device) latest = std::max(latest, end.clock);
  return latest;
}

std::vector<Event> to_come_last(const Clocks& clocks, Event e) {
  std::vector<EntryRef> unread = clocks.unread_by(e.ref.device);
  if (unread.empty()) return {std::move(e)};
  Event followed{e.ref, e.stamp,
                 ClockFollowed{clocks.latest_beside(e.ref.device), std::move(unread)}};
  ++e.ref.seq;
  return {std::move(followed), std::move(e)};
}

}  // namespace engine
