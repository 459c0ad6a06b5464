#include "engine/mites/counting.h"

#include <cassert>
#include <cmath>

namespace engine::mites {
namespace {

double per_100(const Wash& wash) { return 100 * as_double(wash.mites) / as_double(wash.bees); }

bool several_on_a_bee(const Wash& wash) {
  return as_double(wash.mites) > 0.3 * as_double(wash.bees);
}

}  // namespace

WashEstimate estimate(const Wash& wash, double conf) {
  assert(wash.bees > 0 && wash.mites >= 0);
  const bool many = several_on_a_bee(wash);
  Limits rate = many ? garwood(wash.mites, conf) : clopper_pearson(wash.mites, wash.bees, conf);
  if (many) rate = {rate.low / as_double(wash.bees), rate.high / as_double(wash.bees)};
  return {many ? WashMethod::Garwood : WashMethod::ClopperPearson, per_100(wash), 100 * rate.low,
          100 * rate.high};
}

Verdict verdict(double p_ge, double p_le, const Cutoff& cutoff) {
  if (p_ge <= cutoff.alpha) return {p_ge, p_le, Decision::Treat};
  if (p_le <= cutoff.beta) return {p_ge, p_le, Decision::Watch};
  return {p_ge, p_le, Decision::Recount};
}

Verdict judge(const Wash& wash, const Cutoff& cutoff) {
  assert(wash.bees > 0 && wash.mites >= 0);
  const double share = cutoff.per_100 / 100;
  if (several_on_a_bee(wash)) {
    const double mean = share * as_double(wash.bees);
    return verdict(poisson_at_least(wash.mites, mean), poisson_at_most(wash.mites, mean), cutoff);
  }
  return verdict(binomial_at_least(wash.mites, wash.bees, share),
                 binomial_at_most(wash.mites, wash.bees, share), cutoff);
}

Wash pooled(const std::vector<Wash>& washes) {
  Wash all;
  for (const Wash& one : washes) all.mites += one.mites, all.bees += one.bees;
  return all;
}

Decision decide(const std::vector<Wash>& washes, int allowed, const Cutoff& cutoff) {
  const Wash all = pooled(washes);
  const Decision first = judge(all, cutoff).decision;
  if (first != Decision::Recount || washes.size() < static_cast<std::size_t>(allowed)) return first;
  return per_100(all) >= cutoff.per_100 ? Decision::Treat : Decision::Watch;
}

DecisionTable decision_table(std::int64_t bees, const Cutoff& cutoff) {
  DecisionTable table;
  for (;; ++table.treat_from) {
    const Decision decision = judge({table.treat_from, bees}, cutoff).decision;
    if (decision == Decision::Treat) return table;
    if (decision == Decision::Watch) table.watch_up_to = table.treat_from;
  }
}

std::optional<int> more_washes_if_rate_holds(const Wash& wash, std::int64_t bees_each,
                                             const Cutoff& cutoff, int most) {
  for (int more = 0; more <= most; ++more) {
    const std::int64_t bees = wash.bees + more * bees_each;
    const Wash then{std::llround(as_double(wash.mites) * as_double(bees) / as_double(wash.bees)),
                    bees};
    if (judge(then, cutoff).decision != Decision::Recount) return more;
  }
  return std::nullopt;
}

}  // namespace engine::mites
