// ui/screens/answers/tonight.h -- when the bees are home next, and the trip through the yards that
// are due.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ui/screens/answers/trip_lengths.h"

namespace ui {

struct Tonight {
  std::string when;                      // "Tonight", "This dawn", "Tomorrow at dawn"
  std::optional<engine::BeesHome> bees;  // none: no place is known
  engine::Date on{};
  engine::HomePart part = engine::HomePart::Evening;
  std::vector<engine::TripYard> due;                     // most overdue first
  std::optional<engine::TripOnClock> trip;               // none: nothing is due, or no window
  std::map<engine::YardId, engine::WalkLength> planned;  // of the yards due; the rest is assumed
  bool settled = true;                                   // false: a walk is still to be planned
  std::optional<engine::BeesHome> after;                 // the dawn that follows an evening
  std::chrono::minutes zone{};
};

// The next window that is not over now; `due` is that of today. A trip sets out no sooner than the
// next full five minutes. Walks whose length is not in `lengths` are assumed.
[[nodiscard]] Tonight tonight_of(const Look& look, const engine::Due& due,
                                 const TripLengths& lengths);

// How long the bees' window is, with a headlamp; none: there is none.
[[nodiscard]] double window_minutes(const Tonight& tonight);

// Those that the trip holds; all that are due where there is no trip to choose by.
[[nodiscard]] std::vector<engine::TripYard> yards_of(const Tonight& tonight);
[[nodiscard]] std::vector<const engine::Colony*> evening_colonies(const Look& look,
                                                                  const Tonight& tonight);

// "Tonight 20:14 to 22:44", a headlamp counted in.
[[nodiscard]] std::string window_label(const Tonight& tonight);
// "Tonight: bees home from 20:14; light until 20:46, headlamp until 22:46".
[[nodiscard]] std::string window_words(const Tonight& tonight);
// "Fair: by the light alone. Flight ends near sunset; ..."
[[nodiscard]] std::string trust_words(const Tonight& tonight);
// "19:54", of a trip that holds a yard.
[[nodiscard]] std::string leave_words(const Tonight& tonight);
// "bees home: fair; 2 yards, leave 19:54".
[[nodiscard]] std::string trip_words(const Tonight& tonight);

}  // namespace ui
