#include "engine/order/order_times.h"

#include <algorithm>
#include <cmath>

namespace engine::order {
namespace {

int next_act(OrderStage stage) { return static_cast<int>(stage); }  // to do: set, vapor: cover ...

std::vector<OrderPoint> places_of(const OrderCase& c) {
  std::vector<OrderPoint> places;
  for (const OrderSite& s : c.sites) places.push_back(s.at);
  places.push_back(c.operator_at.value_or(c.gate));
  places.push_back(c.gate);
  return places;
}

}  // namespace

OrderProblem::OrderProblem(const OrderCase& c, double seal_s)
    : sites(c.sites.size()),
      now(c.now_s),
      seal(seal_s),
      handling{c.handling.load_and_set_s, c.handling.lift_and_cover_s, c.handling.uncover_s},
      vaporizers(c.vaporizers),
      cloths(c.cloths),
      free_vaporizers(c.vaporizers),
      free_cloths(c.cloths) {
  for (const OrderSite& s : c.sites) {
    dwell.push_back(s.dwell_s);
    first.push_back(next_act(s.stage));
    since.push_back(s.since_s);
    acts += static_cast<std::size_t>(3 - first.back());
    if (s.stage == OrderStage::Vapor) --free_vaporizers;
    if (s.stage == OrderStage::Covered) --free_cloths;
  }
  const std::vector<OrderPoint> places = places_of(c);
  places_ = places.size();
  walk_.resize(places_ * places_);
  for (std::size_t i = 0; i < places_; ++i)
    for (std::size_t j = 0; j < places_; ++j)
      walk_[i * places_ + j] =
          std::hypot(places[i].x - places[j].x, places[i].y - places[j].y) / c.walk_mps;
}

SequenceTimer::SequenceTimer(const OrderProblem& yard) : yard_(yard) {}

double SequenceTimer::time(const Sequence& seq) {
  ends_.clear();
  ready_.clear();
  for (std::size_t s = 0; s < yard_.sites; ++s) ready_.push_back(ready_at_first(yard_, s));
  Moment m = beginning(yard_);
  for (const Act& act : seq) {
    double& ready = ready_[static_cast<std::size_t>(act.site)];
    if (!step(yard_, m, act, ready)) return kNever;
    ready = m.t + wait_after(yard_, act);
    ends_.push_back(m.t);
  }
  return m.t + yard_.walk(m.place, yard_.gate());
}

// ---- the plan as it is shown ----

namespace {

// Which cloth lies where. The one that was taken away last is in the hand.
class ClothNumbers {
 public:
  explicit ClothNumbers(const OrderCase& c) : on_(c.sites.size(), 0) {
    std::vector<bool> used(static_cast<std::size_t>(c.cloths) + 1, false);
    for (std::size_t s = 0; s < c.sites.size(); ++s)
      if (c.sites[s].stage == OrderStage::Covered && c.sites[s].cloth > 0) {
        on_[s] = c.sites[s].cloth;
        used[static_cast<std::size_t>(on_[s])] = true;
      }
    for (int n = c.cloths; n >= 1; --n)
      if (!used[static_cast<std::size_t>(n)]) free_.push_back(n);
    for (std::size_t s = 0; s < c.sites.size(); ++s)
      if (c.sites[s].stage == OrderStage::Covered && on_[s] == 0) take(s);
  }
  int take(std::size_t site) {
    on_[site] = free_.back();
    free_.pop_back();
    return on_[site];
  }
  int give(std::size_t site) {
    free_.push_back(on_[site]);
    return on_[site];
  }

 private:
  std::vector<int> on_, free_;
};

}  // namespace

OrderPlan plan_of(const OrderCase& c, const OrderProblem& yard, const Sequence& seq) {
  OrderPlan plan;
  SequenceTimer clock(yard);
  plan.finish_s = clock.time(seq);
  ClothNumbers cloths(c);
  std::vector<double> covered = yard.since;
  double shortest = kNever;
  for (std::size_t i = 0; i < seq.size(); ++i) {
    const auto site = static_cast<std::size_t>(seq[i].site);
    const double end = clock.ends()[i];
    OrderStep step{static_cast<OrderDo>(seq[i].what), seq[i].site, 0,
                   end - yard.handling[seq[i].what], end};
    if (step.act == OrderDo::Cover) {
      step.cloth = cloths.take(site);
      covered[site] = end;
    } else if (step.act == OrderDo::Uncover) {
      step.cloth = cloths.give(site);
      shortest = std::min(shortest, step.start_s - covered[site]);
    }
    plan.steps.push_back(step);
  }
  plan.shortest_seal_s = shortest == kNever ? 0 : shortest;
  return plan;
}

}  // namespace engine::order
