// engine/learn/dwell.h -- how long the next dwell will be, learned from the keeper's own dwells.
//
// What is learned: the time from the setting to the lifting, as the keeper noted both. That is when
// the vaporizer was lifted, not when its heat was back; a keeper who lifts when the timer calls
// teaches it the timer. So the prediction never becomes the goal by itself (it could only creep
// up): the label's dwell goal and least dwell stay the rule, the prediction is shown beside them,
// and a dwell far beyond all others asks whether the vaporizer still recovers.
//
// The model (engine/core/regression.h): seconds = base + grams + warmth + this vaporizer + what its
// pan slows with each setting since it was cleaned + noise. Its prior is common practice: 60 s and
// 15 s for each gram. A vaporizer's dwells are forgotten slowly, so that one that changes is
// followed. How much two vaporizers differ is chosen by what would have foretold the dwells best.
// The band is not that of a bell curve alone: the more dwells there are, the more it follows how
// far they themselves lay off what was foretold, because liftings come late more often than early.
// tests/reference/dwell_coverage_test.cpp says how often it holds.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "engine/core/regression.h"
#include "engine/farm/farm.h"
#include "engine/walk/timers.h"

namespace engine {

inline constexpr double kDwellBase = 60;          // s, common practice
inline constexpr double kDwellPerGram = 15;       // s, common practice
inline constexpr Temperature kReferenceAir{100};  // 10 °C; where no temperature was noted

// One dwell that counts.
struct DwellSeen {
  double grams = 0;   // as loaded (dose_loaded)
  double warmth = 0;  // tens of degrees Celsius above kReferenceAir
  KitId vaporizer;
  double seconds = 0;
  double since_cleaned = 0;  // settings of the vaporizer before it, from its last cleaning on
};
// Left out: a lifting that nobody noted, a length that the clocks leave unsure, a pause during the
// dwell, a mishap from the setting to the lifting, a drop or a failure to recover noted after it,
// a lifting that had to wait for a cloth, and lengths that measure no heat (below 15 s: a slip of
// the finger; above 10 min: forgotten).
struct DwellsSeen {
  std::vector<DwellSeen> counted;  // oldest first
  int left_out = 0;
  std::map<KitId, double> since_cleaned;  // as of now; a vaporizer that is not named: 0
};
[[nodiscard]] DwellsSeen dwells_seen(const Farm& farm);

// No cloth could be taken, neither a free one nor one whose seal was over, when the dwell had
// reached the goal and kClothInTime more: how long it stood says nothing of its heat.
// `t` is one of the walk's own.
inline constexpr Seconds kClothInTime{20};  // own choice
[[nodiscard]] bool waits_for_cloth(const Walk& walk, const Treatment& t);

// Tens of degrees Celsius below kReferenceAir; 0 where no temperature was noted.
[[nodiscard]] double coldness(const Conditions& conditions);

struct DwellModel {
  LinearFit fit;
  std::vector<KitId> vaporizers;  // those with columns of their own, rising
  std::vector<int> dwells_of;     // how many each was seen with
  std::map<KitId, double> since_cleaned;
  std::vector<double> off;  // what the dwells lay off their forecasts, in its scale; rising
  int dwells = 0;
  int left_out = 0;
};
[[nodiscard]] DwellModel learn_dwell(const DwellsSeen& seen);
// Proportional to all treatments: keep the result until the log grows.
[[nodiscard]] DwellModel learn_dwell(const Farm& farm);

struct DwellForecast {
  Seconds median{};
  Seconds nine_in_ten{};  // nine of ten dwells end before it
  Seconds ninety_nine{};  // and 99 of 100 before this
  int dwells = 0;         // learned from; 0: common practice alone
  int dwells_of_vaporizer = 0;
};
// Of a dose on the basis of the walk's rules, in the air the walk was opened in.
[[nodiscard]] DwellForecast forecast_dwell(const DwellModel& model, const Walk& walk, Mass dose,
                                           KitId vaporizer);

// Where a dwell under way stands. The goal of the rules has its say: nothing is long before it.
enum class DwellStage {
  Early,          // before the median
  Usual,          // between the median and nine in ten
  Long,           // beyond nine in ten, and the goal
  NotRecovering,  // beyond 99 of 100, and the goal: the heat does not come back
};
constexpr std::array<const char*, 4> enum_names(DwellStage) {
  return {"early", "usual", "long", "not_recovering"};
}
[[nodiscard]] DwellStage dwell_stage(const DwellForecast& forecast, const Timer& dwell);

// "usually 1:32, nine in ten by 1:47"; and with what stands behind it: "from 24 dwells, 9 of them
// with this vaporizer", "common practice; no dwell of yours yet".
[[nodiscard]] std::string words(const DwellForecast& forecast);
[[nodiscard]] std::string learned_from(const DwellForecast& forecast);
// "Does it recover? 99 of 100 dwells end by 2:04. Battery low? Nozzle blocked? Dose stuck?"
[[nodiscard]] std::string not_recovering_words(const DwellForecast& forecast);
// What to do then, with care: hot metal, vapor.
[[nodiscard]] const char* not_recovering_caution();

}  // namespace engine
