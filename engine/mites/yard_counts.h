// engine/mites/yard_counts.h -- what washes of some colonies say about their yard.
//
// Rates are mites per 100 bees. The worst colony always stands beside the mean.
#pragma once
#include <optional>
#include <vector>

#include "engine/mites/counting.h"

namespace engine::mites {

struct YardSample {
  std::vector<Wash> colonies;        // at least one, each with at least one bee
  std::optional<int> in_yard;        // colonies of the yard, not fewer than were counted
  std::optional<double> dispersion;  // above 0; replaces the estimate from the counts
  double conf = 0.95;
  std::optional<Cutoff> cutoff;  // none: no decision
};

// What a single colony cannot tell: the spread between colonies.
struct YardSpread {
  double sd = 0;  // of the colonies' rates
  double se = 0;  // of their mean, smaller as fewer colonies of the yard are left uncounted
  double t_low = 0, t_high = 0;  // Student's limits of the mean, not below 0
};

struct YardEstimate {
  double mean_per_100 = 0;  // of the colonies' rates
  double max_per_100 = 0;
  std::optional<YardSpread> spread;  // two colonies or more
  double dispersion = 0;  // negative binomial size per colony: small where few colonies hold most
  double pooled_per_100 = 0;       // all mites on all bees
  double nb_low = 0, nb_high = 0;  // its limits, wider for the spread between colonies
  std::optional<Verdict> verdict;  // with a cutoff
  // Extra colonies that would decide if the mean holds; 0 when decided, none when not even the
  // whole yard (60 colonies when its size is not known) would do.
  std::optional<int> more_colonies_if_mean_holds;
};
[[nodiscard]] YardEstimate estimate(const YardSample& sample);

// Size per colony by the method of moments, kept within 0.3 to 50; 1 with fewer than five colonies
// or no mite at all. Calibrated by this project; no published constant.
[[nodiscard]] double dispersion_of(const std::vector<Wash>& colonies);

}  // namespace engine::mites
