// engine/season/reinfestation.h -- more mites than a yard's colonies can have bred.
//
// After a treatment that brought the count down, mites that come back faster than the model's upper
// band came from elsewhere: robbed or dying colonies near by, drifting bees. Field growth has
// followed foragers that carried mites rather than reproduction (DeGrandi-Hoffman et al. 2016, Exp
// Appl Acarol 69:21-34).
#pragma once
#include <optional>
#include <string>

#include "engine/farm/farm.h"

namespace engine {

// Both counts lie after the last treatment, at least so many days apart. Own choice.
inline constexpr int kComingInLeast = 7;
// After the later of them; common practice.
inline constexpr int kCountAgainDays = 7;

struct ComingIn {
  YardId yard;
  Date low_on{}, high_on{};
  double low_per_100 = 0, high_per_100 = 0;
  double least_ratio = 0;  // lower 95 % limit of how many times as many were counted
  double bred_ratio = 0;   // how many times as many can have been bred (model, upper band)
  Date count_again{};
  std::string line;  // "... more mites than these colonies can have bred: look at the neighbours"
};
// From the last two counts of each colony that was treated before both and not between, the first
// of them below the threshold; nullopt: nothing that the model's band does not hold.
[[nodiscard]] std::optional<ComingIn> mites_coming_in(const Farm& farm, YardId yard, Date today);

}  // namespace engine
