// engine/mites/curve.h -- a quantity over the days: a number, or straight lines between points.
#pragma once
#include <vector>

namespace engine::mites {

struct CurvePoint {
  double day = 0;  // may be negative: history
  double value = 0;
};

// Constant before the first point and after the last.
class Curve {
 public:
  Curve(double constant) : points_{{0, constant}} {}  // NOLINT: a number is a curve
  // At least one point, days strictly ascending.
  explicit Curve(std::vector<CurvePoint> points);

  [[nodiscard]] double at(double day) const;
  [[nodiscard]] const std::vector<CurvePoint>& points() const { return points_; }

 private:
  std::vector<CurvePoint> points_;
};

}  // namespace engine::mites
