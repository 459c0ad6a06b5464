#include "engine/mites/curve.h"

#include <algorithm>
#include <cassert>

namespace engine::mites {

Curve::Curve(std::vector<CurvePoint> points) : points_(std::move(points)) {
  assert(!points_.empty());
  assert(std::adjacent_find(points_.begin(), points_.end(),
                            [](const CurvePoint& a, const CurvePoint& b) {
                              return a.day >= b.day;
                            }) == points_.end());
}

double Curve::at(double day) const {
  if (day <= points_.front().day) return points_.front().value;
  if (day >= points_.back().day) return points_.back().value;
  const auto after =
      std::upper_bound(points_.begin(), points_.end(), day,
                       [](double wanted, const CurvePoint& p) { return wanted < p.day; });
  const CurvePoint& from = *(after - 1);
  return from.value + (after->value - from.value) * (day - from.day) / (after->day - from.day);
}

}  // namespace engine::mites
