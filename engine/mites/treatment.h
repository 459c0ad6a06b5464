// engine/mites/treatment.h -- rounds on days, and what one round kills.
//
// Dose, number, spacing and season limits come from the registered label, never from here.
#pragma once
#include <array>
#include <vector>

#include "engine/mites/colony.h"

namespace engine::mites {

// One round on each day, in any order; a day named twice is one round. Days are 0 or later.
struct Treatment {
  std::vector<int> days;
  double kill = 0;  // chance that a mite exposed in the hive dies, 0..1
  double away = 0;  // share of the mites on bees that are not at home, 0..1
};

// `count` rounds from `start`, `interval` days apart.
[[nodiscard]] std::vector<int> spaced_days(int start, int count, int interval);

// The days in order, each once, without those from `horizon` on.
[[nodiscard]] std::vector<int> rounds_within(const std::vector<int>& days, int horizon);

// How well vapor reaches the mites. Field trials with brood span both: show the band, headline the
// field end, and let what the keeper's own courses teach (engine/mites/learn_kill.h) take its
// place.
enum class Reach { Field, Exposed };
constexpr std::array<const char*, 2> enum_names(Reach) { return {"field", "exposed"}; }

// The kill of a dose in grams per brood chamber. Exposed passes through 97.6 % at 2.25 g
// in broodless winter colonies (Al Toufailia, Scandian, Ratnieks 2015, J Apic Res 54:108-120; dose
// from memory); field is this project's weak end, for trials that fell short of their thresholds
// (seven rounds of 1 g: Berry et al. 2022, PMC8825467). tests/reference/mites_trials_test.cpp holds
// the band between them to the trials. Assumed in between.
[[nodiscard]] double kill_of_dose(double grams, Reach reach, const Constants& constants);

// A forager's mite load beside the average bee's; assumed.
inline constexpr double kForagerLoad = 0.5;
// Share of the mites that are out, from the share of the bees that are.
[[nodiscard]] double away_share(double bees_out, double forager_load = kForagerLoad);

// Share of the cells capped on one day that open within `days`, at steady laying. Never to be shown
// as efficacy: most mites that come out are back under a cap before the next round.
[[nodiscard]] double cells_opened(const BroodDays& brood, const Constants& constants, int days);

}  // namespace engine::mites
