#include "engine/core/units.h"

#include <fmt/format.h>

#include <cmath>

namespace engine {
namespace {

constexpr double kGramsPerOunce = 28.349523125;  // international avoirdupois ounce, exact

std::string without_trailing_zeros(std::string s) {
  while (s.back() == '0') s.pop_back();
  if (s.back() == '.') s.pop_back();
  return s;
}

}  // namespace

std::string show(Mass m, MassUnit unit) {
  const double grams = static_cast<double>(m.mg) / 1000.0;
  if (unit == MassUnit::Ounce) return fmt::format("{:.3f} oz", grams / kGramsPerOunce);
  return without_trailing_zeros(fmt::format("{:.3f}", grams)) + " g";
}

std::string show(Temperature t, TemperatureUnit unit) {
  const double celsius = t.tenths_c / 10.0;
  if (unit == TemperatureUnit::Fahrenheit)
    return fmt::format("{} °F", std::lround(32.0 + 1.8 * celsius));
  return without_trailing_zeros(fmt::format("{:.1f}", celsius)) + " °C";
}

}  // namespace engine
