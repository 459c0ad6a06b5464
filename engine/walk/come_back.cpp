#include "engine/walk/come_back.h"

#include <algorithm>

#include "engine/walk/timers.h"

namespace engine {
namespace {

using Reasons = std::vector<ComeBackReason>;

bool finished(const Walk& w, const Stop& s) {
  return w.closed || s.phase == Phase::Done || s.phase == Phase::PassedOver;
}

void judge_length(const std::optional<Elapsed>& length, Seconds least, ComeBackWhy short_one,
                  Reasons& reasons) {
  if (!length) return;
  if (!length->sure)
    reasons.push_back({ComeBackWhy::ClockUnsure, {}, {}, {}});
  else if (length->length < least)
    reasons.push_back({short_one, {}, {}, length->length});
}

// What one treatment by itself leaves to be desired.
Reasons judge(const Walk& w, const Treatment& t) {
  Reasons reasons;
  if (t.flight == Flight::Heavy) reasons.push_back({ComeBackWhy::FlyingHeavy, {}, {}, {}});
  const auto dwell = dwell_of(t);
  // Vapor that stopped by itself is enough only where the whole dwell was over.
  if (t.halted && dwell && dwell->sure && dwell->length < w.rules.dwell_goal)
    reasons.push_back({ComeBackWhy::VaporHalted, {}, {}, dwell->length});
  else
    judge_length(dwell, w.rules.dwell_least, ComeBackWhy::ShortDwell, reasons);
  judge_length(seal_of(t), w.rules.seal_least, ComeBackWhy::ShortSeal, reasons);
  return reasons;
}

// One good treatment is enough, whatever went wrong with the others; else the last one counts.
// Mishaps count until a good treatment was begun after them.
void judge_treatments(const Walk& w, const Stop& s, Reasons& reasons) {
  const auto good = std::find_if(s.treatments.rbegin(), s.treatments.rend(), [&](const auto& t) {
    return t.uncovered_at && judge(w, t).empty();
  });
  if (good == s.treatments.rend() && !s.treatments.empty()) {
    const Reasons last = judge(w, s.treatments.back());
    reasons.insert(reasons.end(), last.begin(), last.end());
  }
  for (const StopMishap& m : s.mishaps)
    if (good == s.treatments.rend() || m.entry > good->entry)
      reasons.push_back({ComeBackWhy::HadMishap, {}, m.what, {}});
}

}  // namespace

std::vector<ComeBackReason> reasons_to_come_back(const Walk& w, const Stop& s) {
  Reasons reasons;
  if (!finished(w, s)) return reasons;
  if (s.phase == Phase::ToDo) reasons.push_back({ComeBackWhy::NotReached, {}, {}, {}});
  if (s.phase == Phase::PassedOver) reasons.push_back({ComeBackWhy::PassedOver, s.passed, {}, {}});
  if (s.phase == Phase::Covered) reasons.push_back({ComeBackWhy::LeftCovered, {}, {}, {}});
  judge_treatments(w, s, reasons);
  return reasons;
}

StopOutcome outcome_of(const Walk& w, const Stop& s) {
  if (!finished(w, s)) return StopOutcome::UnderWay;
  if (s.phase == Phase::PassedOver) return StopOutcome::PassedOver;
  if (s.phase == Phase::ToDo) return StopOutcome::NotReached;
  return reasons_to_come_back(w, s).empty() ? StopOutcome::Treated : StopOutcome::ComeBack;
}

void WalkTotals::add(StopOutcome outcome) {
  std::size_t* const numbers[] = {&treated, &come_back, &passed_over, &not_reached, &under_way};
  ++*numbers[static_cast<std::size_t>(outcome)];
}

WalkTotals totals_of(const Walk& walk) {
  WalkTotals totals;
  for (const Stop& stop : walk.stops) totals.add(outcome_of(walk, stop));
  return totals;
}

}  // namespace engine
