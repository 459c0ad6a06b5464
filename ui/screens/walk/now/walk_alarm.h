// ui/screens/walk/now/walk_alarm.h -- which timers of the walk call for the keeper, and when to
// sound.
//
// Pure. The screen flashes for what due_timers() gives; the app plays the tone when alarm_wanted()
// says so: at the moment a timer becomes due, and again every 15 s while a dwell is due (a hive
// with a finished vaporizer waits; a cloth that lies longer does no harm).
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/guide/guide.h"

namespace ui {

inline constexpr engine::Ms kAlarmAgain{15'000};  // own choice

enum class DueKind { Dwell, Seal, Setting };

struct DueTimer {
  engine::ColonyId colony;
  DueKind kind = DueKind::Dwell;
  engine::Stamp since;  // when it began: tells two timers of one colony apart
  engine::Ms elapsed{};
  bool sure = true;  // false: the wall clock was changed over a restart; nobody knows how long

  [[nodiscard]] bool same(const DueTimer& o) const {
    return colony == o.colony && kind == o.kind && since == o.since;
  }
};

// Of the walk under way on this tablet: dwells first (with a plan, none while every cloth still has
// to lie where it is), then a setting that was put off until now, then (if no vapor is to come any
// more) seals, the longest overdue first. A timer that is not sure counts as due: somebody has to
// look. `lead`: the plan of that walk, if there is one.
[[nodiscard]] std::vector<DueTimer> due_timers(const engine::Farm& farm, engine::DeviceId device,
                                               const engine::Stamp& now,
                                               const engine::Lead* lead = nullptr);

// Whether a dose is still to give or to lift. Cloths past their time only call when none is.
[[nodiscard]] bool vapor_to_come(const engine::Walk& walk);

// "Lift from B3"; "Set A4 now"; "Take the cloth off A1"; "Clock was changed: check A1 yourself".
[[nodiscard]] std::string words(const DueTimer& timer, const engine::Farm& farm);

// What has sounded already; one for the life of the app.
struct AlarmMemory {
  std::vector<DueTimer> heard;
  std::optional<engine::Ms> last;  // on the clock that counts since boot
};
// Whether the tone is to be played now; remembers that it was.
[[nodiscard]] bool alarm_wanted(AlarmMemory& memory, const std::vector<DueTimer>& due,
                                engine::Ms since_boot);

}  // namespace ui
