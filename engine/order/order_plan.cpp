#include <algorithm>
#include <cassert>
#include <cmath>

#include "engine/order/order.h"
#include "engine/order/order_exact.h"
#include "engine/order/order_improve.h"
#include "engine/order/order_start.h"
#include "engine/order/order_times.h"
#include "engine/order/order_wind.h"

namespace engine {
namespace {

using namespace order;

constexpr double kHair = 1e-9;
constexpr double kMostSlowerForWind = 1.03;

// How much is tried, counted in acts timed: a time, but the same on every machine.
struct Budget {
  double acts_timed = 0;
  std::size_t most_exact = 0;
  double hot = 0;  // s; the first threshold of the search. The less is tried, the cooler it begins.
};

// The sizes are chosen on one core of an ordinary computer: 16 colonies in some 100 ms, 40 in half
// a second, 100 in a little more than one, and the rest of a walk of 40 in some 20 ms.
Budget budget_for(const OrderProblem& y, OrderEffort effort) {
  constexpr std::size_t kSmall = 24, kMiddle = 130;  // acts
  const bool under_way = y.free_vaporizers < y.vaporizers || y.free_cloths < y.cloths || y.now > 0;
  if (effort == OrderEffort::Rough) return {2.5e5, 0, 2};
  if (effort == OrderEffort::Quick) return {2.5e6, 5'000, 2};
  if (y.acts <= kSmall) return {5e6, 60'000, 10};
  if (under_way && y.acts <= kMiddle) return {5e6, 0, 2};
  const double grown = static_cast<double>(y.acts) / 300.0;
  return {4e6 + std::min(2.8e8, 4e8 * grown * std::sqrt(grown)), 0, 10};
}

double finish_of(const OrderProblem& y, const Sequence& seq) { return SequenceTimer(y).time(seq); }

// The sequence of steps still to do; empty when it does not fit the yard.
Sequence fitting(const OrderProblem& y, const std::vector<OrderStep>& steps) {
  Sequence seq;
  std::vector<int> next = y.first;
  for (const OrderStep& s : steps) {
    if (s.site < 0 || static_cast<std::size_t>(s.site) >= y.sites) return {};
    const auto site = static_cast<std::size_t>(s.site);
    if (static_cast<int>(s.act) != next[site]++) return {};
    seq.push_back({static_cast<std::int16_t>(s.site), static_cast<std::int8_t>(s.act)});
  }
  if (seq.size() != y.acts || finish_of(y, seq) == kNever) return {};
  return seq;
}

std::vector<Sequence> starts(const OrderProblem& y, const std::vector<OrderStep>& keep) {
  std::vector<Sequence> all{rotation(y)};
  if (Sequence kept = fitting(y, keep); !kept.empty()) all.push_back(std::move(kept));
  const double dwell = y.dwell.empty() ? 0 : y.dwell.front();
  for (const double far : {0.0, 1.0, 4.0})
    for (const double ahead : {0.0, 0.5, 20.0})
      for (const double later : {-dwell, 0.0, dwell})
        all.push_back(by_leaning(y, {0, 0, later, far, ahead}));
  return all;
}

// The best few of the starts, each other than the rest in its finish.
std::vector<Improved> best_starts(const OrderProblem& y, std::vector<Sequence> all,
                                  std::size_t most) {
  std::vector<Improved> timed;
  for (Sequence& seq : all) timed.push_back({std::move(seq), 0});
  for (Improved& i : timed) i.finish = finish_of(y, i.seq);
  std::stable_sort(timed.begin(), timed.end(),
                   [](const Improved& a, const Improved& b) { return a.finish < b.finish; });
  std::vector<Improved> best;
  for (Improved& i : timed) {
    if (best.size() == most) break;
    if (best.empty() || i.finish > best.back().finish + kHair) best.push_back(std::move(i));
  }
  return best;
}

Improved search(const OrderProblem& y, const std::vector<OrderStep>& keep, const Budget& budget,
                double bound) {
  std::vector<Improved> found = best_starts(y, starts(y, keep), y.acts <= 24 ? 3 : 1);
  const double share = 0.8 / static_cast<double>(found.size());
  for (std::size_t i = 0; i < found.size(); ++i)
    found[i] =
        improve(y, found[i].seq, share * budget.acts_timed, budget.hot, bound + kHair, Dice(i + 1));
  Improved best =
      *std::min_element(found.begin(), found.end(),
                        [](const Improved& a, const Improved& b) { return a.finish < b.finish; });
  for (std::uint64_t round = 0; round < 2; ++round)
    best = improve(y, best.seq, 0.1 * budget.acts_timed, budget.hot / 4, bound + kHair,
                   Dice(100 + round));
  return best;
}

struct Answer {
  Improved best;
  double bound = 0;
  bool proven = false;
};

Answer answer_for(const OrderProblem& y, const std::vector<OrderStep>& keep, const Budget& budget) {
  Answer a;
  a.bound = lower_bound(y);
  if (y.acts == 0) return {{{}, a.bound}, a.bound, true};
  a.best = search(y, keep, budget, a.bound);
  if (a.best.finish <= a.bound + 1e-6) {
    a.proven = true;
  } else if (budget.most_exact > 0) {
    if (const auto exact = best_below(y, a.best.finish, budget.most_exact)) {
      if (!exact->empty()) a.best = {*exact, finish_of(y, *exact)};
      a.proven = true;
    }
  }
  if (a.proven) a.bound = a.best.finish;
  return a;
}

// ---- a longer seal while there is time ----

// The longest seal with which the sequence is back in time; never below that of the yard it fits.
double longest_seal(const OrderCase& c, const Sequence& seq, double least, double finish_by) {
  double low = least, high = std::max(least, finish_by - c.now_s);
  if (finish_of(OrderProblem(c, high), seq) <= finish_by) return high;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (finish_of(OrderProblem(c, middle), seq) <= finish_by ? low : high) = middle;
  }
  return low;
}

struct Sealed {
  Sequence seq;
  double seal = 0;
};

// From sequence to sequence: as long a seal as this one allows, then a better one for that seal.
Sealed lengthen(const OrderCase& c, const Sequence& seq, double finish_by, const Budget& budget) {
  Sealed best{seq, longest_seal(c, seq, c.seal_s, finish_by)};
  constexpr int kRounds = 8;
  for (std::uint64_t round = 0; round < kRounds; ++round) {
    // A little more than can be had, so that a better sequence must be found.
    const OrderProblem wished(c, best.seal * 1.01 + 1);
    const Sequence fresh = by_leaning(wished, {0, 0, 0, 1, 0.5});
    const Sequence from = round % 2 == 1 ? fresh : best.seq;
    const Improved tried =
        improve(wished, from, 0.12 * budget.acts_timed, 15, finish_by, Dice(200 + round));
    const double seal = longest_seal(c, tried.seq, c.seal_s, finish_by);
    if (finish_of(OrderProblem(c, c.seal_s), tried.seq) <= finish_by && seal > best.seal)
      best = {tried.seq, seal};
  }
  return best;
}

// ---- out of the wind ----

Sequence out_of_the_wind(const OrderCase& c, const OrderProblem& y, const Sequence& fastest,
                         double slowest, const Budget& budget) {
  constexpr double kTooSlow = 1e6;  // no time in the wind weighs as much
  const auto cost = [&](const Sequence& seq) {
    const double finish = finish_of(y, seq);
    if (finish == kNever) return kNever;
    const double wind = downwind_s(c, plan_of(c, y, seq));
    return wind + (finish > slowest ? kTooSlow + finish : 1e-3 * finish);
  };
  const auto tries = static_cast<std::size_t>(
      budget.acts_timed / (60 * static_cast<double>(std::max<std::size_t>(8, y.acts))));
  return improve_cost(y, fastest, std::min<std::size_t>(tries, 20'000), 8, cost, Dice(300));
}

}  // namespace

OrderPlan plan_order(const OrderCase& c, OrderEffort effort, const std::vector<OrderStep>& keep) {
  assert(what_is_wrong(c).empty());
  const OrderProblem asked(c, c.seal_s);
  const Budget budget = budget_for(asked, effort);
  Answer answer = answer_for(asked, keep, budget);
  Sequence seq = answer.best.seq;
  double seal = c.seal_s;
  // Three parts in a hundred of what is left, not of the clock.
  double slowest = c.now_s + (answer.best.finish - c.now_s) * kMostSlowerForWind;
  if (c.finish_by_s && answer.best.finish <= *c.finish_by_s && asked.acts > 0) {
    const Sealed longer = lengthen(c, seq, *c.finish_by_s, budget);
    seq = longer.seq;
    seal = longer.seal;
    slowest = *c.finish_by_s;
  }
  const OrderProblem yard(c, seal);
  if (c.wind_from_deg && asked.acts > 0) seq = out_of_the_wind(c, yard, seq, slowest, budget);
  OrderPlan plan = plan_of(c, yard, seq);
  plan.lower_bound_s = std::min(answer.bound, plan.finish_s);
  plan.proven_optimal = answer.proven && seal == c.seal_s && plan.finish_s <= answer.bound + 1e-6;
  plan.downwind_s = downwind_s(c, plan);
  return plan;
}

OrderPlan plain_rotation(const OrderCase& c) {
  const OrderProblem yard(c, c.seal_s);
  OrderPlan plan = plan_of(c, yard, rotation(yard));
  plan.lower_bound_s = lower_bound(yard);
  plan.downwind_s = downwind_s(c, plan);
  return plan;
}

std::optional<OrderPlan> retime(const OrderCase& c, const std::vector<OrderStep>& steps) {
  const OrderProblem yard(c, c.seal_s);
  const Sequence seq = fitting(yard, steps);
  if (seq.empty() && yard.acts > 0) return std::nullopt;
  OrderPlan plan = plan_of(c, yard, seq);
  plan.lower_bound_s = lower_bound(yard);
  plan.downwind_s = downwind_s(c, plan);
  return plan;
}

std::vector<ClothRow> cloth_table(const OrderCase& c, int from, int to, OrderEffort effort) {
  OrderCase many = c;
  many.finish_by_s.reset();
  many.wind_from_deg.reset();
  int lying = 0;  // no fewer cloths than lie there now
  for (OrderSite& s : many.sites) {
    s.cloth = 0;
    lying += s.stage == OrderStage::Covered ? 1 : 0;
  }
  many.cloths = std::max(to, static_cast<int>(c.sites.size()));
  const double unhurried = plan_order(many, effort).finish_s;
  std::vector<ClothRow> rows;
  std::vector<OrderStep> fewer;  // the plan of one cloth less fits with one more
  for (int cloths = std::max({1, from, lying}); cloths <= to; ++cloths) {
    many.cloths = cloths;
    const OrderProblem yard(many, c.seal_s);
    const Budget budget = budget_for(yard, effort);
    const Answer answer = answer_for(yard, fewer, budget);
    ClothRow row{cloths, answer.best.finish, 0};
    OrderCase free = many;
    free.seal_s = 0;
    const OrderProblem open(free, 0);
    const Answer shortest = answer_for(open, fewer, budget);
    for (const Sequence& seq : {answer.best.seq, shortest.best.seq}) {
      if (finish_of(open, seq) > unhurried) continue;
      row.longest_seal_s =
          std::max(row.longest_seal_s, lengthen(free, seq, unhurried, budget).seal);
    }
    if (!rows.empty()) {
      row.finish_s = std::min(row.finish_s, rows.back().finish_s);
      row.longest_seal_s = std::max(row.longest_seal_s, rows.back().longest_seal_s);
    }
    fewer = plan_of(many, yard, answer.best.seq).steps;
    rows.push_back(row);
  }
  return rows;
}

}  // namespace engine
