#include "engine/calendar/placing.h"

#include <algorithm>
#include <cstdlib>

namespace engine::placing {

Board::Board(const CalendarAsk& ask) : ask_(&ask), placed_(ask.yards.size()) {
  if (ask.yards.empty()) return;
  const Date first =
      std::min_element(ask.yards.begin(), ask.yards.end(), [](const auto& a, const auto& b) {
        return a.earliest < b.earliest;
      })->earliest;
  for (int i = 0; i <= ask.horizon_days; ++i)
    if (const Date d = date_after(first, i); ask.free(d)) evenings_.push_back({d, i, {}});
  for (Evening& e : evenings_)
    if (const auto at = ask.taken.find(e.on); at != ask.taken.end()) {
      e.held = e.taken = at->second;
      std::sort(e.held.begin(), e.held.end());
    }
}

std::vector<Date> Board::dates(std::size_t i) const {
  std::vector<Date> out;
  for (const int e : placed_[i]) out.push_back(evenings_[static_cast<std::size_t>(e)].on);
  return out;
}

int Board::evenings_used() const {
  return static_cast<int>(std::count_if(evenings_.begin(), evenings_.end(),
                                        [](const Evening& e) { return e.ours > 0; }));
}

void Board::put(std::size_t i, Places at) {
  const YardId yard = of(i).yard;
  for (const int place : at) {
    Evening& e = evenings_[static_cast<std::size_t>(place)];
    ++e.ours;
    e.held.insert(std::upper_bound(e.held.begin(), e.held.end(), yard), yard);
  }
  placed_[i] = std::move(at);
}

void Board::take_out(std::size_t i) {
  for (const int place : placed_[i]) {
    Evening& e = evenings_[static_cast<std::size_t>(place)];
    --e.ours;
    e.held.erase(std::find(e.held.begin(), e.held.end(), of(i).yard));
  }
  placed_[i].clear();
}

double Board::cost() const {
  double sum = 0;
  for (const Evening& e : evenings_)
    if (e.ours > 0 && e.taken.empty()) sum += kPerEvening;
  for (std::size_t i = 0; i < size(); ++i) sum += own_cost(i);
  return sum;
}

double Board::own_cost(std::size_t i) const {
  const RoundsAsk& y = of(i);
  if (y.rounds < 1) return 0;
  const Places& at = placed_[i];
  if (at.empty()) return kUnplaced;
  double sum = first_cost(y, evenings_[static_cast<std::size_t>(at[0])]);
  for (std::size_t r = 1; r < at.size(); ++r) sum += step_cost(y, at[r - 1], at[r]);
  return sum;
}

bool Board::may_stand(std::size_t i, int evening, const std::vector<std::size_t>& out) const {
  const RoundsAsk& y = of(i);
  const Evening& e = evenings_[static_cast<std::size_t>(evening)];
  if (e.on < y.earliest || (y.latest && e.on > *y.latest)) return false;
  if (!y.walked.empty() && e.on <= y.walked.back()) return false;
  if (std::binary_search(e.held.begin(), e.held.end(), y.yard)) return false;
  for (const auto& [on, yards] : ask_->taken)
    if (std::find(yards.begin(), yards.end(), y.yard) != yards.end() &&
        std::abs(days_apart(on, e.on)) < y.label_gap)
      return false;
  for (std::size_t other = 0; other < size(); ++other) {
    if (other == i || of(other).yard != y.yard) continue;
    if (std::find(out.begin(), out.end(), other) != out.end()) continue;
    for (const int at : placed_[other])
      if (std::abs(evenings_[static_cast<std::size_t>(at)].day - e.day) < y.label_gap) return false;
  }
  return true;
}

double Board::gap_cost(const RoundsAsk& y, int gap) {
  if (gap < y.label_gap) return kNever;
  const int off = gap < y.gap_least ? y.gap_least - gap : std::max(0, gap - y.gap_most);
  return kPerGapDay * off;
}

double Board::first_cost(const RoundsAsk& y, const Evening& e) const {
  const double sum = kPerDayLate * y.urgency * days_apart(y.earliest, e.on);
  if (!y.last_on) return sum;
  const int gap = days_apart(*y.last_on, e.on);
  if (gap < y.label_gap) return kNever;
  return y.walked.empty() ? sum : sum + gap_cost(y, gap);
}

double Board::step_cost(const RoundsAsk& y, int from, int to) const {
  const int gap =
      evenings_[static_cast<std::size_t>(to)].day - evenings_[static_cast<std::size_t>(from)].day;
  return gap_cost(y, gap) + kPerDayLong * gap;
}

}  // namespace engine::placing
