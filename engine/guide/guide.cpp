#include "engine/guide/guide.h"

#include <algorithm>
#include <cmath>

#include "engine/farm/queries.h"

namespace engine {
namespace {

constexpr double kBetweenHives = 2;  // m, where nobody said where a colony stands

double seconds(Ms length) { return static_cast<double>(length.count()) / 1000; }

double since_opening(const Walk& walk, const Stamp& at) {
  return seconds(elapsed(walk.opened, at).length);
}

OrderPoint point(const Spot& spot) { return {spot.x_cm / 100.0, spot.y_cm / 100.0}; }

std::vector<OrderPoint> places(const Farm& farm, const Walk& walk) {
  std::vector<OrderPoint> at;
  OrderPoint next;
  for (const Stop& s : walk.stops) {
    const auto colony = farm.colonies.find(s.colony);
    if (colony != farm.colonies.end() && colony->second.spot) next = point(*colony->second.spot);
    at.push_back(next);
    next.x += kBetweenHives;
  }
  return at;
}

double dwell_of(const Farm& farm, const Walk& walk, const DwellModel& model, const Stop& stop) {
  const bool stands = stop.phase == Phase::UnderVapor;
  const KitId vaporizer = stands ? stop.treatments.back().vaporizer : walk.vaporizers.front();
  const Mass dose =
      stands ? stop.treatments.back().dose : prompted_dose(farm, walk.rules, stop.colony);
  const Seconds usual = forecast_dwell(model, walk, dose, vaporizer).median;
  return static_cast<double>(std::max(usual, walk.rules.dwell_goal).count());
}

int number_of(const Walk& walk, std::optional<KitId> cloth) {
  const auto at = std::find(walk.cloths.begin(), walk.cloths.end(), cloth);
  return at == walk.cloths.end() ? 0 : static_cast<int>(at - walk.cloths.begin()) + 1;
}

OrderStage stage_of(Phase phase) {
  switch (phase) {
    case Phase::ToDo:
      return OrderStage::ToDo;
    case Phase::UnderVapor:
      return OrderStage::Vapor;
    case Phase::Covered:
      return OrderStage::Covered;
    case Phase::Done:
    case Phase::PassedOver:
      return OrderStage::Done;
  }
  return OrderStage::Done;
}

OrderSite site_of(const Farm& farm, const Walk& walk, const DwellModel& dwell, std::size_t i,
                  double now_s) {
  const Stop& stop = walk.stops[i];
  OrderSite site{.id = std::to_string(i + 1), .stage = stage_of(stop.phase)};
  if (site.stage != OrderStage::Done) site.dwell_s = dwell_of(farm, walk, dwell, stop);
  // A clock that was changed may have put them after now. What rested is not done yet.
  if (site.stage == OrderStage::Vapor) {
    const Treatment& t = stop.treatments.back();
    const auto rested = static_cast<double>(t.rested.length.count()) / 1000;
    const double end = t.halted ? since_opening(walk, t.halted->since) : now_s;
    const double vapor = end - since_opening(walk, t.set_at) - rested;
    site.since_s = now_s - std::clamp(vapor, 0.0, now_s);
  }
  if (site.stage == OrderStage::Covered) {
    site.since_s = std::min(now_s, since_opening(walk, *stop.treatments.back().lifted_at));
    site.cloth = number_of(walk, stop.treatments.back().cloth);
  }
  return site;
}

// Where the hands were last; nothing: they have not touched a hive yet.
std::optional<std::size_t> last_touched(const Walk& walk) {
  std::optional<std::size_t> best;
  double latest = -1;
  const auto look = [&](std::size_t i, const std::optional<Stamp>& at) {
    if (!at || since_opening(walk, *at) < latest) return;
    best = i;
    latest = since_opening(walk, *at);
  };
  for (std::size_t i = 0; i < walk.stops.size(); ++i)
    for (const Treatment& t : walk.stops[i].treatments) {
      look(i, t.set_at);
      if (!t.lift_inferred) look(i, t.lifted_at);
      if (!t.uncover_inferred) look(i, t.uncovered_at);
    }
  return best;
}

OrderHandling handling(const Pace& pace) {
  return {static_cast<double>(pace.load_and_set.count()),
          static_cast<double>(pace.lift_and_cover.count()),
          static_cast<double>(pace.uncover.count())};
}

OrderPoint gate_of(const Farm& farm, const Walk& walk, const std::vector<OrderPoint>& places) {
  const auto yard = farm.yards.find(walk.yard);
  if (yard != farm.yards.end() && yard->second.gate) return point(*yard->second.gate);
  return places.empty() ? OrderPoint{} : places.front();
}

// `soonest`: each step as soon as it may be. Settings less than `worth_s` too early stay there.
Lead lead_by(const Walk& walk, OrderCase c, const OrderPlan& soonest, double worth_s) {
  Lead lead{std::move(c)};
  lead.plan = set_late(lead.from, soonest, worth_s);
  lead.visits = visits_of(walk, lead.plan.steps);
  if (!soonest.steps.empty() && soonest.steps.front().act == OrderDo::Set)
    lead.hold =
        Ms{std::llround((lead.plan.steps.front().start_s - soonest.steps.front().start_s) * 1000)};
  return lead;
}

// Acts and stages count a colony's visits alike: to do, its setting comes next, and so on.
bool still_comes(OrderDo act, OrderStage stage) {
  return static_cast<int>(act) >= static_cast<int>(stage);
}

// The plan to go on with, before its settings are put off. Where what was planned last does not
// fit, a step was taken back or taken out of order: `opened`, the plan of the walk's opening, has
// it.
OrderPlan soonest_on(const OrderCase& c, const std::vector<OrderStep>& before,
                     const std::vector<OrderStep>& opened) {
  const auto freed = [&](OrderPlan plan) { return set_behind(c, air_sooner(c, std::move(plan))); };
  std::vector<OrderStep> rest = still_to_do(c, before);
  auto kept = retime(c, rest);
  if (!kept) kept = retime(c, rest = still_to_do(c, opened));
  if (!kept) return freed(plan_order(c, OrderEffort::Quick));
  // Nothing can be so much quicker: no need to look.
  if (kept->finish_s - kept->lower_bound_s <= kWorthAChange) return freed(std::move(*kept));
  OrderPlan fresh = plan_order(c, OrderEffort::Quick, rest);
  return freed(std::move(fresh.finish_s < kept->finish_s - kWorthAChange ? fresh : *kept));
}

}  // namespace

std::optional<OrderCase> case_of(const Farm& farm, const Walk& walk, const DwellModel& dwell,
                                 const Stamp& now) {
  if (walk.vaporizers.empty() || walk.cloths.empty()) return std::nullopt;
  if (walk.stops.size() > static_cast<std::size_t>(kMostSites)) return std::nullopt;
  const Pace pace = farm.setup.pace.value_or(Pace{});
  const std::vector<OrderPoint> at = places(farm, walk);
  OrderCase c;
  c.walk_mps = pace.walk_mm_s / 1000.0;
  c.gate = gate_of(farm, walk, at);
  c.vaporizers = static_cast<int>(walk.vaporizers.size());
  c.cloths = static_cast<int>(walk.cloths.size());
  c.seal_s = static_cast<double>(walk.rules.seal_goal.count());
  c.handling = handling(pace);
  c.now_s = since_opening(walk, now);
  for (std::size_t i = 0; i < walk.stops.size(); ++i) {
    c.sites.push_back(site_of(farm, walk, dwell, i, c.now_s));
    c.sites.back().at = at[i];
  }
  if (const auto last = last_touched(walk)) c.operator_at = at[*last];
  if (walk.conditions.wind_from_deg) c.wind_from_deg = *walk.conditions.wind_from_deg;
  return what_is_wrong(c).empty() ? std::optional(std::move(c)) : std::nullopt;
}

Walk walk_to_be(const WalkOpened& opened, const Stamp& now) {
  return begin(Event{{}, now, opened}, opened);
}

std::optional<OrderCase> case_of_colonies(const Farm& farm, YardId yard,
                                          const std::vector<const Colony*>& colonies,
                                          const DwellModel& dwell, const Stamp& now) {
  WalkOpened o;
  o.yard = yard;
  o.rules = farm.setup.rules.value_or(LabelRules{});
  for (const Colony* c : colonies) o.colonies.push_back(c->id);
  for (const KitItem* v : kit_of(farm, KitSort::Vaporizer)) o.vaporizers.push_back(v->id);
  for (const KitItem* c : kit_of(farm, KitSort::Cloth)) o.cloths.push_back(c->id);
  if (o.colonies.empty()) return std::nullopt;
  return case_of(farm, walk_to_be(o, now), dwell, now);
}

std::optional<OrderCase> case_of_yard(const Farm& farm, YardId yard, const DwellModel& dwell,
                                      const Stamp& now) {
  return case_of_colonies(farm, yard, colonies_to_treat(farm, yard), dwell, now);
}

std::vector<PlannedVisit> visits_of(const Walk& walk, const std::vector<OrderStep>& steps) {
  std::vector<PlannedVisit> visits;
  for (const OrderStep& s : steps) {
    PlannedVisit v{.act = s.act, .colony = walk.stops[static_cast<std::size_t>(s.site)].colony};
    if (s.cloth > 0) v.cloth = walk.cloths[static_cast<std::size_t>(s.cloth - 1)];
    v.start = Seconds{std::llround(s.start_s)};
    v.end = Seconds{std::llround(s.end_s)};
    visits.push_back(v);
  }
  return visits;
}

std::vector<OrderStep> steps_of(const Walk& walk, const std::vector<PlannedVisit>& visits) {
  std::vector<OrderStep> steps;
  for (const PlannedVisit& v : visits) {
    const auto stop = std::find_if(walk.stops.begin(), walk.stops.end(),
                                   [&](const Stop& s) { return s.colony == v.colony; });
    const int cloth = number_of(walk, v.cloth);
    if (stop == walk.stops.end() || (v.act != OrderDo::Set && cloth == 0)) continue;
    steps.push_back({v.act, static_cast<int>(stop - walk.stops.begin()), cloth,
                     static_cast<double>(v.start.count()), static_cast<double>(v.end.count())});
  }
  return steps;
}

std::vector<OrderStep> still_to_do(const OrderCase& c, const std::vector<OrderStep>& steps) {
  std::vector<OrderStep> rest;
  for (const OrderStep& s : steps)
    if (still_comes(s.act, c.sites[static_cast<std::size_t>(s.site)].stage)) rest.push_back(s);
  return rest;
}

std::optional<Ms> seal_to_be(const Walk& walk, const Lead& lead, ColonyId colony) {
  std::optional<double> closed, open;
  for (std::size_t i = 0; i < walk.stops.size(); ++i)
    if (walk.stops[i].colony == colony && lead.from.sites[i].stage == OrderStage::Covered)
      closed = lead.from.sites[i].since_s;
  for (const OrderStep& s : lead.plan.steps) {
    if (walk.stops[static_cast<std::size_t>(s.site)].colony != colony) continue;
    if (s.act == OrderDo::Cover) closed = s.end_s;
    if (s.act == OrderDo::Uncover) open = s.start_s;
  }
  if (!closed || !open) return std::nullopt;
  return Ms{std::llround((*open - *closed) * 1000)};
}

const Lead* Guide::of(const Farm& farm, const Walk& walk, const DwellModel& dwell,
                      const Stamp& now) {
  const Seconds second = std::chrono::floor<Seconds>(elapsed(walk.opened, now).length);
  const bool same = walk_ == walk.id && entries_ == farm.log.size();
  if (same && second == second_) return lead_ ? &*lead_ : nullptr;
  auto c = case_of(farm, walk, dwell, now);
  if (!c)
    lead_.reset();
  else if (same && lead_)
    time_again(walk, std::move(*c));
  else
    plan(walk, std::move(*c));
  walk_ = walk.id;
  entries_ = farm.log.size();
  second_ = second;
  return lead_ ? &*lead_ : nullptr;
}

void Guide::plan(const Walk& walk, OrderCase c) {
  const auto opened = steps_of(walk, walk.planned);
  const bool goes_on = walk_ == walk.id && lead_;
  const OrderPlan soonest = soonest_on(c, goes_on ? lead_->plan.steps : opened, opened);
  lead_ = lead_by(walk, std::move(c), soonest, kWorthHolding);
  lead_->put_off = lead_->hold > Ms{0};
}

// A setting that was put off stays so to the second; none is put off that was not.
void Guide::time_again(const Walk& walk, OrderCase c) {
  const auto timed = retime(c, lead_->plan.steps);
  const OrderPlan soonest = timed ? *timed : lead_->plan;
  const bool put_off = lead_->put_off;
  lead_ = lead_by(walk, std::move(c), soonest, put_off ? 0 : kWorthHolding);
  lead_->put_off = put_off;
  if (!put_off) lead_->hold = Ms{0};
}

}  // namespace engine
