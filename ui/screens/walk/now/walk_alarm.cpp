#include "ui/screens/walk/now/walk_alarm.h"

#include <algorithm>

#include "engine/farm/queries.h"
#include "engine/language/tr.h"
#include "engine/walk/timers.h"
#include "engine/words/lookup.h"

namespace ui {

using engine::tr;
namespace {

void add_due(const std::vector<engine::Timer>& timers, DueKind kind, std::vector<DueTimer>& due) {
  for (const engine::Timer& t : timers)
    if (t.due() || !t.sure) due.push_back({t.colony, kind, t.since, t.elapsed, t.sure});
}

bool cloth_at_hand(const engine::Walk& walk, const engine::Stamp& now) {
  const auto cloth = engine::next_cloth(walk, now);
  return !cloth || !cloth->seal || cloth->seal->due() || !cloth->seal->sure;
}

// Lifted now, nothing could close the entrance: the plan waits, and so should the keeper.
void drop_lifts_without_cloth(const engine::Walk& walk, const engine::Stamp& now,
                              std::vector<DueTimer>& due) {
  if (cloth_at_hand(walk, now)) return;
  std::erase_if(due, [](const DueTimer& d) { return d.kind == DueKind::Dwell && d.sure; });
}

void add_setting(const engine::Walk& walk, const engine::Lead& lead, std::vector<DueTimer>& due) {
  if (!lead.put_off || lead.hold > engine::Ms{0} || lead.visits.empty()) return;
  if (walk.paused || lead.visits.front().act != engine::OrderDo::Set) return;
  due.push_back({lead.visits.front().colony, DueKind::Setting, walk.opened});
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
  std::erase_if(memory.heard, [](const DueTimer& h) { return h.kind == DueKind::Dwell; });
  for (const DueTimer& d : due)
    if (d.kind == DueKind::Dwell || !heard(memory, d)) memory.heard.push_back(d);
}

}  // namespace

bool vapor_to_come(const engine::Walk& walk) {
  return std::any_of(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
    return s.phase == engine::Phase::ToDo || s.phase == engine::Phase::UnderVapor;
  });
}

std::vector<DueTimer> due_timers(const engine::Farm& farm, engine::DeviceId device,
                                 const engine::Stamp& now, const engine::Lead* lead) {
  std::vector<DueTimer> due;
  const engine::Walk* walk = engine::walk_under_way(farm, device);
  if (walk == nullptr) return due;
  add_due(engine::dwells(*walk, now), DueKind::Dwell, due);
  if (lead != nullptr) {
    drop_lifts_without_cloth(*walk, now, due);
    add_setting(*walk, *lead, due);
  }
  if (!vapor_to_come(*walk)) add_due(engine::seals(*walk, now), DueKind::Seal, due);
  return due;
}

std::string words(const DueTimer& timer, const engine::Farm& farm) {
  const std::string colony = engine::colony_called(farm, timer.colony);
  if (!timer.sure) return tr("Clock was changed: check {} yourself", colony);
  if (timer.kind == DueKind::Dwell) return tr("Lift from {}", colony);
  if (timer.kind == DueKind::Setting) return tr("Set {} now", colony);
  return tr("Take the cloth off {}", colony);
}

bool alarm_wanted(AlarmMemory& memory, const std::vector<DueTimer>& due, engine::Ms since_boot) {
  const bool dwell_due = std::any_of(due.begin(), due.end(),
                                     [](const DueTimer& d) { return d.kind == DueKind::Dwell; });
  const bool again = dwell_due && (!memory.last || since_boot - *memory.last >= kAlarmAgain);
  const bool sound = again || any_new(memory, due);
  remember(memory, due);
  if (sound) memory.last = since_boot;
  return sound;
}

}  // namespace ui
