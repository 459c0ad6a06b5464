// Each yard's rounds are placed by dynamic programming over the evenings, the others held where
// they are; yards take turns until nothing gets better. The work is bounded by counts, never by a
// clock.
#include "engine/calendar/calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <numeric>

#include "engine/words/words.h"

namespace engine {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr int kMostTurns = 6;
// What a day or an evening costs. Own choice; only the order of size matters: a gap beyond the
// asked one is worse than a later beginning, that is worse than an evening more.
constexpr double kPerGapDay = 50, kPerDayLate = 2, kPerEvening = 3, kPerDayLong = 0.2;

using Yards = std::vector<YardId>;

class Planner {
 public:
  explicit Planner(const CalendarAsk& ask) : ask_(ask), placed_(ask.yards.size()) {
    if (ask.yards.empty()) return;
    first_ = std::min_element(ask.yards.begin(), ask.yards.end(), [](const auto& a, const auto& b) {
               return a.earliest < b.earliest;
             })->earliest;
    for (int i = 0; i <= ask.horizon_days; ++i)
      if (const Date d = date_after(first_, i); ask.free(d)) evenings_.push_back({d, i, {}});
    for (Evening& e : evenings_)
      if (const auto at = ask.taken.find(e.on); at != ask.taken.end()) e.held = at->second;
  }

  void run() {
    for (const std::size_t i : by_urgency()) place(i);
    for (int turn = 0; turn < kMostTurns; ++turn) {
      const double before = cost();
      for (const std::size_t i : by_urgency()) place_again(i);
      if (cost() >= before - 1e-9) return;
    }
  }

  [[nodiscard]] std::vector<Date> dates(std::size_t yard) const {
    std::vector<Date> out;
    for (const int e : placed_[yard].at) out.push_back(evenings_[e].on);
    return out;
  }
  [[nodiscard]] int evenings_used() const {
    return static_cast<int>(std::count_if(evenings_.begin(), evenings_.end(),
                                          [](const Evening& e) { return e.ours > 0; }));
  }

 private:
  struct Evening {
    Date on{};
    int day = 0;  // from the first
    Yards held;
    int ours = 0;  // of those held
  };
  struct Placed {
    std::vector<int> at;  // indices into evenings_
    double cost = 0;
  };

  [[nodiscard]] std::vector<std::size_t> by_urgency() const {
    std::vector<std::size_t> order(ask_.yards.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return ask_.yards[a].urgency > ask_.yards[b].urgency;
    });
    return order;
  }

  [[nodiscard]] double cost() const {
    double sum = kPerEvening * evenings_used();
    for (std::size_t i = 0; i < placed_.size(); ++i)
      sum += placed_[i].at.empty() ? 1e6 : placed_[i].cost;
    return sum;
  }

  [[nodiscard]] bool fits(const Evening& e, YardId yard) const {
    if (std::find(e.held.begin(), e.held.end(), yard) != e.held.end()) return false;
    Yards all = e.held;
    all.insert(std::upper_bound(all.begin(), all.end(), yard), yard);
    return ask_.holds(e.on, all);
  }

  [[nodiscard]] bool may_stand(const RoundsAsk& y, const Evening& e) const {
    return e.on >= y.earliest && (!y.latest || e.on <= *y.latest) && fits(e, y.yard);
  }

  // Between two rounds so many days apart.
  static double gap_cost(const RoundsAsk& y, int gap) {
    if (gap < y.label_gap) return kNever;
    const int off = gap < y.gap_least ? y.gap_least - gap : std::max(0, gap - y.gap_most);
    return kPerGapDay * off;
  }

  // Of an evening for the first round: late beginnings, and the gap from what was given before.
  [[nodiscard]] double first_cost(const RoundsAsk& y, const Evening& e) const {
    double sum = kPerDayLate * y.urgency * days_apart(y.earliest, e.on);
    if (!y.last_on) return sum;
    const int gap = days_apart(*y.last_on, e.on);
    if (gap < y.label_gap) return kNever;
    return y.walked.empty() ? sum : sum + gap_cost(y, gap);
  }

  Placed best_for(const RoundsAsk& y) const {
    const std::size_t n = evenings_.size(), rounds = static_cast<std::size_t>(y.rounds);
    std::vector<double> stand(n, kNever);
    for (std::size_t e = 0; e < n; ++e)
      if (may_stand(y, evenings_[e])) stand[e] = evenings_[e].held.empty() ? kPerEvening : 0;
    std::vector<std::vector<double>> best(rounds, std::vector<double>(n, kNever));
    std::vector<std::vector<int>> from(rounds, std::vector<int>(n, -1));
    for (std::size_t e = 0; e < n; ++e) best[0][e] = first_cost(y, evenings_[e]) + stand[e];
    for (std::size_t r = 1; r < rounds; ++r) extend(y, stand, best[r - 1], best[r], from[r]);
    return read_back(best, from);
  }

  void extend(const RoundsAsk& y, const std::vector<double>& stand,
              const std::vector<double>& before, std::vector<double>& now,
              std::vector<int>& from) const {
    for (std::size_t e = 0; e < now.size(); ++e) {
      if (stand[e] == kNever) continue;
      for (std::size_t p = 0; p < e; ++p) {
        const int gap = evenings_[e].day - evenings_[p].day;
        const double sum = before[p] + gap_cost(y, gap) + kPerDayLong * gap + stand[e];
        if (sum < now[e] - 1e-9) now[e] = sum, from[e] = static_cast<int>(p);
      }
    }
  }

  static Placed read_back(const std::vector<std::vector<double>>& best,
                          const std::vector<std::vector<int>>& from) {
    const auto end = std::min_element(best.back().begin(), best.back().end());
    if (end == best.back().end() || *end == kNever) return {};
    Placed placed{{}, *end};
    int e = static_cast<int>(end - best.back().begin());
    for (std::size_t r = best.size(); r-- > 0;) {
      placed.at.push_back(e);
      e = from[r][static_cast<std::size_t>(e)];
    }
    std::reverse(placed.at.begin(), placed.at.end());
    return placed;
  }

  // The cost of a placing without what its evenings cost, which all yards share.
  [[nodiscard]] double own_cost(const RoundsAsk& y, const std::vector<int>& at) const {
    if (at.empty()) return 0;
    double sum = first_cost(y, evenings_[at[0]]);
    for (std::size_t r = 1; r < at.size(); ++r) {
      const int gap = evenings_[at[r]].day - evenings_[at[r - 1]].day;
      sum += gap_cost(y, gap) + kPerDayLong * gap;
    }
    return sum;
  }

  void hold(std::size_t yard, bool on) {
    const YardId id = ask_.yards[yard].yard;
    for (const int at : placed_[yard].at) {
      Evening& e = evenings_[at];
      e.ours += on ? 1 : -1;
      if (on)
        e.held.insert(std::upper_bound(e.held.begin(), e.held.end(), id), id);
      else
        e.held.erase(std::find(e.held.begin(), e.held.end(), id));
    }
  }

  void place(std::size_t yard) {
    const RoundsAsk& y = ask_.yards[yard];
    if (y.rounds < 1) return;
    placed_[yard] = best_for(y);
    placed_[yard].cost = own_cost(y, placed_[yard].at);
    hold(yard, true);
  }

  void place_again(std::size_t yard) {
    hold(yard, false);
    place(yard);
  }

  const CalendarAsk& ask_;
  Date first_{};
  std::vector<Evening> evenings_;
  std::vector<Placed> placed_;
};

std::string yard_name(const Farm& farm, YardId yard) {
  const auto at = farm.yards.find(yard);
  return at == farm.yards.end() ? "?" : at->second.name;
}

void judge_gaps(const RoundsAsk& y, PlacedRounds& p, const std::vector<Date>& placed) {
  std::optional<Date> before;
  if (!y.walked.empty()) before = y.last_on;
  for (const Date d : placed) {
    if (before) {
      const int gap = days_apart(*before, d);
      p.longest_gap = std::max(p.longest_gap, gap);
      if (gap < y.gap_least || gap > y.gap_most)
        p.why.push_back(
            fmt::format("{} days from {} to {}, where {} to {} were asked for: no free "
                        "evening with room was left in between.",
                        gap, iso_date(*before), iso_date(d), y.gap_least, y.gap_most));
    }
    before = d;
  }
}

}  // namespace

Calendar plan_calendar(const Farm& farm, const CalendarAsk& ask) {
  Planner planner(ask);
  planner.run();
  Calendar out;
  for (std::size_t i = 0; i < ask.yards.size(); ++i) {
    const RoundsAsk& y = ask.yards[i];
    const std::vector<Date> placed = planner.dates(i);
    if (placed.empty() && y.rounds > 0) {
      out.no_room.push_back(fmt::format(
          "{}: no evenings for {} found{}; free more evenings, or drive less on one.",
          yard_name(farm, y.yard), counted(static_cast<std::size_t>(y.rounds), "round", "rounds"),
          y.latest ? " until " + iso_date(*y.latest) : ""));
      continue;
    }
    PlacedRounds p;
    p.yard = y.yard;
    p.dates = {y.course, y.is_new ? std::optional(y.yard) : std::nullopt, y.walked};
    for (const Date d : placed)
      if (p.dates.rounds.empty() || d > p.dates.rounds.back()) p.dates.rounds.push_back(d);
    judge_gaps(y, p, placed);
    out.yards.push_back(std::move(p));
  }
  out.evenings = planner.evenings_used();
  return out;
}

}  // namespace engine
