#include "engine/order/order_wind.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace engine::order {
namespace {

constexpr double kReach = 10;          // m
constexpr double kCoveredVapor = 120;  // s

struct Span {
  double from = 0, to = 0;
};

struct Leg {  // from one place to another at steady speed, or at rest
  Span when;
  OrderPoint a, b;
};

struct Source {
  OrderPoint at;
  Span when;
};

std::vector<Leg> legs_of(const OrderCase& c, const OrderPlan& plan) {
  std::vector<Leg> legs;
  OrderPoint here = c.operator_at.value_or(c.gate);
  double t = c.now_s;
  const auto go = [&](const OrderPoint& to, double until) {
    const double there = t + std::hypot(to.x - here.x, to.y - here.y) / c.walk_mps;
    legs.push_back({{t, there}, here, to});
    legs.push_back({{there, until}, to, to});
    here = to;
    t = until;
  };
  for (const OrderStep& s : plan.steps) go(c.sites[static_cast<std::size_t>(s.site)].at, s.end_s);
  go(c.gate, plan.finish_s);
  return legs;
}

std::vector<Source> sources_of(const OrderCase& c, const OrderPlan& plan) {
  std::vector<Source> all(c.sites.size());
  for (std::size_t i = 0; i < c.sites.size(); ++i) {
    const OrderSite& s = c.sites[i];
    all[i] = {s.at, {kNever, kNever}};
    if (s.stage == OrderStage::Vapor) all[i].when = {s.since_s, kNever};
    if (s.stage == OrderStage::Covered) all[i].when = {s.since_s, s.since_s + kCoveredVapor};
  }
  for (const OrderStep& step : plan.steps) {
    Span& when = all[static_cast<std::size_t>(step.site)].when;
    if (step.act == OrderDo::Set) when = {step.end_s, kNever};
    if (step.act == OrderDo::Cover) when.to = step.end_s + kCoveredVapor;
    if (step.act == OrderDo::Uncover) when.to = std::min(when.to, step.end_s);
  }
  return all;
}

// Narrows [from, to] of the leg's 0..1 to where p + q u >= 0.
void keep_side(double p, double q, double& from, double& to) {
  if (q == 0) {
    if (p < 0) to = from - 1;
  } else if (q > 0) {
    from = std::max(from, -p / q);
  } else {
    to = std::min(to, -p / q);
  }
}

// ... and to where |p + q u| <= kReach.
void keep_near(OrderPoint p, OrderPoint q, double& from, double& to) {
  const double a = q.x * q.x + q.y * q.y, b = p.x * q.x + p.y * q.y;
  const double c = p.x * p.x + p.y * p.y - kReach * kReach;
  if (a == 0) {
    if (c > 0) to = from - 1;
    return;
  }
  const double root = b * b - a * c;
  if (root < 0) return void(to = from - 1);
  from = std::max(from, (-b - std::sqrt(root)) / a);
  to = std::min(to, (-b + std::sqrt(root)) / a);
}

// When on this leg the operator is downwind of the source. The wedge is a right angle, so being in
// it is being on the inner side of both its edges.
void add_downwind(const Leg& leg, const Source& source, double toward, std::vector<Span>& spans) {
  const Span when{std::max(leg.when.from, source.when.from), std::min(leg.when.to, source.when.to)};
  if (!(when.from < when.to)) return;
  const OrderPoint p{leg.a.x - source.at.x, leg.a.y - source.at.y};
  const OrderPoint q{leg.b.x - leg.a.x, leg.b.y - leg.a.y};
  if (q.x == 0 && q.y == 0 && p.x == 0 && p.y == 0) return;  // at the colony itself
  double from = 0, to = 1;
  for (const double edge : {toward - std::numbers::pi / 4, toward + std::numbers::pi / 4}) {
    const double ex = std::sin(edge), ey = std::cos(edge);
    keep_side(p.x * ex + p.y * ey, q.x * ex + q.y * ey, from, to);
  }
  keep_near(p, q, from, to);
  if (!(from <= to)) return;
  const double long_s = leg.when.to - leg.when.from;
  const Span inside{std::max(when.from, leg.when.from + from * long_s),
                    std::min(when.to, leg.when.from + to * long_s)};
  if (inside.from < inside.to) spans.push_back(inside);
}

double length_of_union(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end(),
            [](const Span& a, const Span& b) { return a.from < b.from; });
  double sum = 0, reached = -kNever;
  for (const Span& s : spans) {
    if (s.to <= reached) continue;
    sum += s.to - std::max(s.from, reached);
    reached = s.to;
  }
  return sum;
}

}  // namespace

double downwind_s(const OrderCase& c, const OrderPlan& plan) {
  if (!c.wind_from_deg) return 0;
  const double toward = (*c.wind_from_deg + 180) * std::numbers::pi / 180;
  const std::vector<Source> sources = sources_of(c, plan);
  std::vector<Span> spans;
  for (const Leg& leg : legs_of(c, plan))
    if (leg.when.from < leg.when.to)
      for (const Source& source : sources) add_downwind(leg, source, toward, spans);
  return length_of_union(std::move(spans));
}

}  // namespace engine::order
