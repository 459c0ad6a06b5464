// engine/mites/fit_kill.h -- the kill of a round, learned from a wash before and one after.
#pragma once
#include <array>
#include <optional>

#include "engine/mites/run.h"

namespace engine::mites {

// The ratio lies outside of what any kill from 0 to 1 would give.
enum class Bounded { Low, High };  // kill 0: more mites than no treatment leaves; kill 1: fewer
constexpr std::array<const char*, 2> enum_names(Bounded) { return {"low", "high"}; }

struct KillFit {
  double kill = 0;
  std::optional<Bounded> bounded;
};

// The kill with which the modelled wash of `post_day` is `ratio` times that of `pre_day`, to the
// precision of a double: what 60 bisection steps would find, by Alefeld, Potra and Shi's algorithm
// 748 (ACM TOMS 21:327-344, 1995) in a sixth of them. `treatment.kill` is not read.
[[nodiscard]] KillFit fit_kill(const Colony& colony, const ColonyState& start, Treatment treatment,
                               int pre_day, int post_day, double ratio);

}  // namespace engine::mites
