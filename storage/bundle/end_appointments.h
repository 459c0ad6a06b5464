// storage/bundle/end_appointments.h -- what treatments end with, as appointments that a calendar
// can move and cancel.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/method/ends.h"

namespace storage {

struct EndAppointment {
  std::string uid;          // of the kind, yard, day of giving and product; the same for ever
  std::size_t place = 0;    // in the log, of the first entry about it
  std::size_t entries = 1;  // about it, whether they hold or not; never fewer later
  bool over = false;        // strips are out, or it was struck; `end.on` is then the day of giving
  engine::TreatmentEnd end;
};

// As of `today`: every end that the log ever spoke of, in the order of the log; those of treatments
// given before `since` only while they wait. Of colonies that end on different days, the soonest
// for strips and the latest for what waits. A colony that was moved takes its end along, and what
// its yards before said of it is over.
[[nodiscard]] std::vector<EndAppointment> end_appointments(
    const engine::Farm& farm, std::span<const engine::MethodRules> methods, engine::Date today,
    engine::Date since);

}  // namespace storage
