// engine/core/units.h -- quantities as types, in whole numbers so that every machine agrees.
#pragma once
#include <compare>
#include <cstdint>
#include <string>

namespace engine {

// A mass in milligrams.
struct Mass {
  std::int64_t mg = 0;

  friend auto operator<=>(const Mass&, const Mass&) = default;
  friend Mass operator+(Mass a, Mass b) { return {a.mg + b.mg}; }
  friend Mass operator-(Mass a, Mass b) { return {a.mg - b.mg}; }
  friend Mass operator*(Mass a, std::int64_t n) { return {a.mg * n}; }
};

// A temperature in tenths of a degree Celsius.
struct Temperature {
  int tenths_c = 0;
  friend auto operator<=>(const Temperature&, const Temperature&) = default;
};

// Where a colony stands in its yard: centimetres east (x) and north (y) of the yard's own origin.
struct Spot {
  int x_cm = 0;
  int y_cm = 0;
  friend auto operator<=>(const Spot&, const Spot&) = default;
};

// A place on the map in millionths of a degree, WGS 84.
struct Place {
  int lat_udeg = 0;
  int lon_udeg = 0;
  friend auto operator<=>(const Place&, const Place&) = default;
};

// Shown beside every mass: what is it a mass of?
enum class Basis { Dihydrate, Product, Anhydrous };
enum class MassUnit { Gram, Ounce };
enum class TemperatureUnit { Celsius, Fahrenheit };

// "2 g", "2.3 g"; ounces (avoirdupois, 28.349523125 g exactly by definition) with three decimals:
// "0.071 oz". Trailing zeros of grams are left out.
[[nodiscard]] std::string show(Mass m, MassUnit unit);
// "12.5 °C"; Fahrenheit is 32 + 1.8 C, to the whole degree.
[[nodiscard]] std::string show(Temperature t, TemperatureUnit unit);

}  // namespace engine
