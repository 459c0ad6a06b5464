#include "engine/mites/search.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

namespace engine::mites {
namespace {

double rounded(double value) { return std::round(value * 1e9) / 1e9; }

// Smaller is better.
auto by_reduction(const Candidate& c) {
  return std::make_tuple(-rounded(c.reduction_pct), c.n, c.days.back());
}
auto by_mean_wash(const Candidate& c) {
  return std::make_tuple(rounded(c.mean_wash), c.days.back(), -rounded(c.reduction_pct));
}

bool close_to(const Candidate& c, const Candidate& best, double tolerance) {
  return rounded(c.reduction_pct) >= rounded(rounded(best.reduction_pct) - tolerance);
}

// Among those of one number of rounds that come close to its best, the least mean wash.
Candidate pick(const std::vector<Candidate>& same, double tolerance) {
  const Candidate& best = *std::min_element(
      same.begin(), same.end(),
      [](const Candidate& a, const Candidate& b) { return by_reduction(a) < by_reduction(b); });
  const Candidate* picked = nullptr;
  for (const Candidate& c : same)
    if (close_to(c, best, tolerance) &&
        (picked == nullptr || by_mean_wash(c) < by_mean_wash(*picked)))
      picked = &c;
  return *picked;
}

void take_number(SearchAnswer& answer, const std::vector<Candidate>& same, double tolerance) {
  if (same.empty()) return;
  answer.ladder.push_back(pick(same, tolerance));
  for (const Candidate& c : same)
    if (!answer.best || by_reduction(c) < by_reduction(*answer.best)) answer.best = c;
}

}  // namespace

std::optional<std::vector<int>> place_rounds(const SearchAsk& ask, int n, int interval) {
  std::vector<int> allowed = ask.allowed.value_or(std::vector<int>{});
  std::sort(allowed.begin(), allowed.end());
  std::vector<int> days;
  for (int j = 0; j < n; ++j) {
    int day = ask.start + j * interval;
    if (!days.empty()) day = std::max(day, days.back() + ask.min_interval);
    if (ask.allowed) {
      const auto next = std::lower_bound(allowed.begin(), allowed.end(), day);
      if (next == allowed.end()) return std::nullopt;
      day = *next;
    }
    days.push_back(day);
  }
  return days;
}

SearchAnswer search(const Colony& colony, const ColonyState& start, const SearchAsk& ask, int day) {
  SearchAnswer answer;
  const ColonyRun untreated = run_untreated(colony, start, day);
  std::set<std::vector<int>> seen;
  const int most = std::min(ask.n_max, ask.max_rounds.value_or(ask.n_max));
  for (int n = ask.n_min; n <= most; ++n) {
    std::vector<Candidate> same;
    for (int i = std::max(ask.i_min, ask.min_interval); i <= ask.i_max; ++i) {
      const auto days = place_rounds(ask, n, i);
      if (!days || days->back() > day - ask.tail_days || !seen.insert(*days).second) continue;
      const ColonyRun treated = run(colony, start, {*days, ask.kill, ask.away}, day);
      const Comparison c = compare(treated, untreated, day);
      same.push_back({n, i, *days, c.mean_wash, c.reduction_pct.value_or(0)});
      ++answer.tried;
    }
    take_number(answer, same, ask.tolerance_pp);
  }
  for (const Candidate& c : answer.ladder)
    if (!answer.advised && close_to(c, *answer.best, ask.tolerance_pp)) answer.advised = c;
  if (!answer.advised) answer.advised = answer.best;
  return answer;
}

}  // namespace engine::mites
