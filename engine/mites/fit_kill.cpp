#include "engine/mites/fit_kill.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cstdint>

namespace engine::mites {
namespace {

namespace policies = boost::math::policies;
// An answer in any case, never an exception.
using QuietSearch = policies::policy<policies::domain_error<policies::ignore_error>,
                                     policies::evaluation_error<policies::ignore_error>>;

}  // namespace

KillFit fit_kill(const Colony& colony, const ColonyState& start, Treatment treatment, int pre_day,
                 int post_day, double ratio) {
  const int days = std::max(pre_day, post_day);
  const auto modelled = [&](double kill) {
    treatment.kill = kill;
    const ColonyRun r = run(colony, start, treatment, days);
    return r.wash_per_100[static_cast<std::size_t>(post_day)] /
           r.wash_per_100[static_cast<std::size_t>(pre_day)];
  };
  const double most = modelled(0) - ratio, least = modelled(1) - ratio;
  if (most < 0) return {0, Bounded::Low};
  if (least > 0) return {1, Bounded::High};
  if (most == 0) return {0, std::nullopt};
  if (least == 0) return {1, std::nullopt};
  if (!(most > 0 && least < 0)) return {0, std::nullopt};  // no mites at all: nothing is a number
  std::uintmax_t steps = 60;
  const auto [low, high] = boost::math::tools::toms748_solve(
      [&](double kill) { return modelled(kill) - ratio; }, 0.0, 1.0, most, least,
      boost::math::tools::eps_tolerance<double>(), steps, QuietSearch{});
  return {(low + high) / 2, std::nullopt};
}

}  // namespace engine::mites
