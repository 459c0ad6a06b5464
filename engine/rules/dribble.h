// engine/rules/dribble.h -- oxalic acid dribbled onto the bees in sugar syrup: how much to mix.
//
// 35 g of dihydrate in 1 L of 1:1 syrup, 5 mL for each seam of bees, at most 50 mL a colony
// whatever its size (US label, from memory; strength, recipe and the 50 mL also in suppliers'
// sheets, second-hand). The label in hand decides. For broodless colonies, once: repeats harm bees.
#pragma once
#include <span>

#include "engine/core/units.h"

namespace engine {

inline constexpr double kDribblePerSeamMl = 5;
inline constexpr double kDribbleMostMl = 50;
inline constexpr double kDribbleGramsPerLitre = 35;
// 35 g acid, 600 g water and 600 g sugar make 0.97 L in the preparation sheet (second-hand).
inline constexpr double kDribbleSugarPerBatch = 600, kDribbleBatchLitres = 0.97;

// mL for a colony of so many seams of bees; 0 for none.
[[nodiscard]] double dribble_ml(int seams);

struct DribbleMix {
  double ml = 0;  // of solution, with the margin
  double acid_g = 0, sugar_g = 0, water_g = 0;
  int colonies = 0;
};
// For colonies of these many seams each, with a margin for what stays in the syringe (0.05: 5 %,
// own choice). Weighed for the volume by the sheet's recipe, in which water and sugar weigh alike.
[[nodiscard]] DribbleMix dribble_mix(std::span<const int> seams, double margin = 0.05);

// For `colonies` that each take the most.
[[nodiscard]] DribbleMix dribble_mix_at_most(int colonies, double margin = 0.05);

}  // namespace engine
