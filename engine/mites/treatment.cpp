#include "engine/mites/treatment.h"

#include <algorithm>
#include <cmath>

namespace engine::mites {

std::vector<int> spaced_days(int start, int count, int interval) {
  std::vector<int> days;
  for (int j = 0; j < count; ++j) days.push_back(start + j * interval);
  return days;
}

std::vector<int> rounds_within(const std::vector<int>& days, int horizon) {
  std::vector<int> rounds = days;
  std::sort(rounds.begin(), rounds.end());
  rounds.erase(std::unique(rounds.begin(), rounds.end()), rounds.end());
  rounds.erase(std::lower_bound(rounds.begin(), rounds.end(), horizon), rounds.end());
  return rounds;
}

double kill_of_dose(double grams, Reach reach, const Constants& constants) {
  const double scale =
      reach == Reach::Field ? constants.dose_scale_field_g : constants.dose_scale_exposed_g;
  return constants.kill_max * (1 - std::exp(-grams / scale));
}

double away_share(double bees_out, double forager_load) {
  return std::min(1.0, bees_out * forager_load);
}

double cells_opened(const BroodDays& brood, const Constants& constants, int days) {
  const int nominal = brood.emerge - brood.cap;
  const auto closed = [&](int age) {  // share of a cohort, by days since capping
    if (age <= nominal - 2) return 1.0;
    if (age == nominal - 1) return 1 - constants.early_share;
    return age == nominal ? constants.late_share : 0.0;
  };
  double still = 0, all = 0;
  for (int age = 0; age <= nominal; ++age) still += closed(age + days), all += closed(age);
  return 1 - still / all;
}

}  // namespace engine::mites
