// ui/screens/tonight.h -- when the bees are home next, and the trip through the yards that are due.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/course/due.h"
#include "engine/trip/tonight.h"

namespace ui {

struct Tonight {
  std::string when;                         // "Tonight", "This dawn", "Tomorrow at dawn"
  std::optional<engine::BeesHome> bees;     // none: no place is known
  std::optional<engine::TripOnClock> trip;  // none: nothing is due, or no window
  std::optional<engine::BeesHome> after;    // the dawn that follows an evening
  std::chrono::minutes zone{};
};

// The next window that is not over at `now`; `due` is that of now's day. A trip sets out no sooner
// than the next full five minutes.
[[nodiscard]] Tonight tonight_of(const engine::Farm& farm, const engine::Due& due,
                                 const engine::Stamp& now);

// "Tonight 20:14 to 22:44", a headlamp counted in.
[[nodiscard]] std::string window_label(const Tonight& tonight);
// "Tonight: bees home from 20:14; light until 20:46, headlamp until 22:46".
[[nodiscard]] std::string window_words(const Tonight& tonight);
// "Fair: by the light alone. Flight ends near sunset; ..."
[[nodiscard]] std::string trust_words(const Tonight& tonight);
// "bees home: fair; 2 yards, leave 19:54".
[[nodiscard]] std::string trip_words(const Tonight& tonight);

}  // namespace ui
