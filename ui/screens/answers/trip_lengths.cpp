#include "ui/screens/answers/trip_lengths.h"

#include <algorithm>

#include "ui/screens/answers/answers.h"

namespace ui {

// The whole seal fits into any longer window as well.
bool TripLengths::still_good(const Known& before, const Asked& now) {
  if (before.asked == now) return true;
  const auto& length = before.length;
  return before.asked.walk == now.walk && before.asked.least == now.least && length &&
         !length->shortened && length->minutes <= now.window_min;
}

void TripLengths::about(const Look& look, const std::vector<engine::TripYard>& yards,
                        double window_min) {
  std::map<engine::YardId, Known> now;
  const engine::Seconds least =
      look.farm.setup.rules ? look.farm.setup.rules->seal_least : engine::LabelRules{}.seal_least;
  for (const engine::TripYard& visit : yards) {
    auto walk = engine::case_of_visit(look.farm, visit, learned(look).dwell, look.now);
    if (!walk) continue;
    Known known{{std::move(*walk), least, window_min}, {}};
    const auto before = known_.find(visit.yard);
    if (before != known_.end() && still_good(before->second, known.asked))
      known.length = before->second.length;
    now.emplace(visit.yard, std::move(known));
  }
  known_ = std::move(now);
}

bool TripLengths::plan_one() {
  for (auto& [yard, known] : known_) {
    if (known.length) continue;
    const Asked& a = known.asked;
    known.length = engine::walk_length(a.walk, a.least, a.window_min);
    return true;
  }
  return false;
}

bool TripLengths::settled() const {
  return std::all_of(known_.begin(), known_.end(),
                     [](const auto& k) { return k.second.length.has_value(); });
}

const engine::WalkLength* TripLengths::of(engine::YardId yard) const {
  const auto at = known_.find(yard);
  return at != known_.end() && at->second.length ? &*at->second.length : nullptr;
}

}  // namespace ui
