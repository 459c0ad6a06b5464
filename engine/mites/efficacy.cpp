#include "engine/mites/efficacy.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine::mites {
namespace {

// A count that stands above or below the line of the ratio of what is left.
struct Term {
  Wash wash;
  double power = 1;  // +1 or -1
};

std::vector<Term> terms_of(EfficacyMethod method, const EfficacyCounts& c) {
  switch (method) {
    case EfficacyMethod::HendersonTilton:
      return {{c.treated_after, 1},
              {c.treated_before, -1},
              {c.control_after, -1},
              {c.control_before, 1}};
    case EfficacyMethod::Abbott:
      return {{c.treated_after, 1}, {c.control_after, -1}};
    case EfficacyMethod::Reduction:
      return {{c.treated_after, 1}, {c.treated_before, -1}};
  }
  return {};
}

}  // namespace

Efficacy efficacy(EfficacyMethod method, const EfficacyCounts& counts, double phi, double conf) {
  const std::vector<Term> terms = terms_of(method, counts);
  Efficacy e;
  e.zero_corrected =
      std::any_of(terms.begin(), terms.end(), [](const Term& t) { return t.wash.mites == 0; });
  double log_left = 0, variance = 0;  // of the share that is left
  for (const Term& t : terms) {
    assert(t.wash.bees > 0);
    const double mites = static_cast<double>(t.wash.mites) + (e.zero_corrected ? 0.5 : 0.0);
    log_left += t.power * std::log(mites / static_cast<double>(t.wash.bees));
    variance += phi / mites;
  }
  const double reach = normal_two_sided(conf) * std::sqrt(variance);
  e.percent = 100 * (1 - std::exp(log_left));
  e.low = 100 * (1 - std::exp(log_left + reach));
  e.high = 100 * (1 - std::exp(log_left - reach));
  return e;
}

Efficacy follow_up_efficacy(std::int64_t killed, std::int64_t by_follow_up, double conf) {
  const std::int64_t all = killed + by_follow_up;
  assert(all > 0);
  const Limits share = clopper_pearson(killed, all, conf);
  return {100 * static_cast<double>(killed) / static_cast<double>(all), 100 * share.low,
          100 * share.high, false};
}

}  // namespace engine::mites
