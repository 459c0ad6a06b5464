// Days, lengths and masses as the screens write them.
#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr const char* kMonths[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr const char* kWeekdays[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};

// Avoirdupois, by definition.
constexpr double kMgPerOunce = 28'349.523125;

}  // namespace

int days_from(engine::Date from, engine::Date to) {
  return static_cast<int>((engine::days(to) - engine::days(from)).count());
}

engine::Date plus_days(engine::Date d, int days) {
  return engine::Date{engine::days(d) + std::chrono::days{days}};
}

std::string day_words(engine::Date d) {
  const std::chrono::weekday w{engine::days(d)};
  return fmt::format("{} {} {} {}", kWeekdays[w.c_encoding()], static_cast<unsigned>(d.day()),
                     kMonths[static_cast<unsigned>(d.month()) - 1], static_cast<int>(d.year()));
}

std::string short_day(engine::Date d, engine::Date today) {
  const auto day = static_cast<unsigned>(d.day());
  const char* month = kMonths[static_cast<unsigned>(d.month()) - 1];
  if (d.year() == today.year()) return fmt::format("{} {}", day, month);
  return fmt::format("{} {} {}", day, month, static_cast<int>(d.year()));
}

std::string from_today(engine::Date d, engine::Date today) {
  const int n = days_from(today, d);
  if (n == 0) return "today";
  if (n == 1) return "tomorrow";
  if (n == -1) return "yesterday";
  return n > 0 ? fmt::format("in {} days", n) : fmt::format("{} days ago", -n);
}

std::string hours_minutes(engine::Ms length) {
  const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(length).count();
  if (minutes < 60) return fmt::format("{} min", minutes);
  return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string show(const Look& look, engine::Mass m) {
  return engine::show(m, look.farm.setup.mass_unit);
}

engine::Mass mass_typed(const Look& look, double value) {
  const bool ounces = look.farm.setup.mass_unit == engine::MassUnit::Ounce;
  return {std::llround(value * (ounces ? kMgPerOunce : 1000.0))};
}

double mass_shown(const Look& look, engine::Mass m) {
  const bool ounces = look.farm.setup.mass_unit == engine::MassUnit::Ounce;
  return static_cast<double>(m.mg) / (ounces ? kMgPerOunce : 1000.0);
}

std::string mass_unit(const Look& look) {
  return look.farm.setup.mass_unit == engine::MassUnit::Ounce ? "oz" : "g";
}

namespace {

bool in_fahrenheit(const Look& look) {
  return look.farm.setup.temperature_unit == engine::TemperatureUnit::Fahrenheit;
}

}  // namespace

NumberAsk ask_air(const Look& look, std::string title) {
  const bool fahrenheit = in_fahrenheit(look);
  return {std::move(title), fahrenheit ? "°F" : "°C", -40, fahrenheit ? 140.0 : 60.0};
}

engine::Temperature air_typed(const Look& look, double value) {
  const double celsius = in_fahrenheit(look) ? (value - 32) / 1.8 : value;
  return {static_cast<int>(std::lround(celsius * 10))};
}

}  // namespace ui
