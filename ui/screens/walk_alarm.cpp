#include "ui/screens/walk_alarm.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/views.h"
#include "engine/register/lookup.h"
#include "engine/walk/timers.h"

namespace ui {
namespace {

// Somebody's dose is still to give or to lift: taking cloths is not what there is to do.
bool vapor_to_come(const engine::Walk& walk) {
  return std::any_of(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
    return s.phase == engine::Phase::ToDo || s.phase == engine::Phase::UnderVapor;
  });
}

void add_due(const std::vector<engine::Timer>& timers, bool dwell, std::vector<DueTimer>& due) {
  for (const engine::Timer& t : timers)
    if (t.due() || !t.sure) due.push_back({t.colony, dwell, t.since, t.elapsed, t.sure});
}

bool heard(const AlarmMemory& memory, const DueTimer& d) {
  return std::any_of(memory.heard.begin(), memory.heard.end(),
                     [&](const DueTimer& h) { return h.same(d); });
}

bool any_new(const AlarmMemory& memory, const std::vector<DueTimer>& due) {
  return std::any_of(due.begin(), due.end(), [&](const DueTimer& d) { return !heard(memory, d); });
}

// A dwell that is over may come due anew; a seal sounds once, also when it leaves the list of what
// is due for a while (another colony is set in between).
void remember(AlarmMemory& memory, const std::vector<DueTimer>& due) {
  std::erase_if(memory.heard, [](const DueTimer& h) { return h.dwell; });
  for (const DueTimer& d : due)
    if (d.dwell || !heard(memory, d)) memory.heard.push_back(d);
}

}  // namespace

std::vector<DueTimer> due_timers(const engine::Farm& farm, engine::DeviceId device,
                                 const engine::Stamp& now) {
  std::vector<DueTimer> due;
  const engine::Walk* walk = engine::walk_under_way(farm, device);
  if (walk == nullptr) return due;
  add_due(engine::dwells(*walk, now), true, due);
  if (!vapor_to_come(*walk)) add_due(engine::seals(*walk, now), false, due);
  return due;
}

std::string words(const DueTimer& timer, const engine::Farm& farm) {
  const std::string colony = engine::colony_called(farm, timer.colony);
  if (!timer.sure) return fmt::format("Clock was changed: check {} yourself", colony);
  if (timer.dwell) return fmt::format("Lift from {}", colony);
  return fmt::format("Take the cloth off {}", colony);
}

bool alarm_wanted(AlarmMemory& memory, const std::vector<DueTimer>& due, engine::Ms since_boot) {
  const bool dwell_due =
      std::any_of(due.begin(), due.end(), [](const DueTimer& d) { return d.dwell; });
  const bool again = dwell_due && (!memory.last || since_boot - *memory.last >= kAlarmAgain);
  const bool sound = again || any_new(memory, due);
  remember(memory, due);
  if (sound) memory.last = since_boot;
  return sound;
}

}  // namespace ui
