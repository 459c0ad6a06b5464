#include "engine/walk/come_back.h"

#include "engine/walk/timers.h"

namespace engine {
namespace {

bool finished(const Walk& w, const Stop& s) {
  return w.closed || s.phase == Phase::Done || s.phase == Phase::PassedOver;
}

// A second, longer treatment makes good a short first one: only the best counts.
void add_short_times(const Walk& w, const Stop& s, std::vector<ComeBackReason>& reasons) {
  std::optional<Ms> dwell, seal;
  for (const Treatment& t : s.treatments) {
    if (const auto d = dwell_of(t); d && (!dwell || d->length > *dwell)) dwell = d->length;
    if (const auto l = seal_of(t); l && (!seal || l->length > *seal)) seal = l->length;
  }
  if (dwell && *dwell < w.rules.dwell_least)
    reasons.push_back({ComeBackWhy::ShortDwell, {}, {}, dwell});
  if (seal && *seal < w.rules.seal_least) reasons.push_back({ComeBackWhy::ShortSeal, {}, {}, seal});
}

}  // namespace

std::vector<ComeBackReason> reasons_to_come_back(const Walk& w, const Stop& s) {
  std::vector<ComeBackReason> reasons;
  if (!finished(w, s)) return reasons;
  if (s.phase == Phase::ToDo) reasons.push_back({ComeBackWhy::NotReached, {}, {}, {}});
  if (s.phase == Phase::PassedOver) reasons.push_back({ComeBackWhy::PassedOver, s.passed, {}, {}});
  if (s.phase == Phase::Covered) reasons.push_back({ComeBackWhy::LeftCovered, {}, {}, {}});
  if (s.flight == Flight::Heavy && !s.treatments.empty())
    reasons.push_back({ComeBackWhy::FlyingHeavy, {}, {}, {}});
  add_short_times(w, s, reasons);
  for (const StopMishap& m : s.mishaps) reasons.push_back({ComeBackWhy::HadMishap, {}, m.what, {}});
  return reasons;
}

}  // namespace engine
