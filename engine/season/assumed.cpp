#include "engine/season/assumed.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace engine {
namespace {

using mites::Curve;
using mites::CurvePoint;
using ByMonth = std::array<double, 12>;  // January first, north of the equator

// Assumptions of this project for a temperate place, shaped on the model's reference colony.
constexpr ByMonth kAdults{10e3, 9e3, 9e3, 12e3, 19e3, 25e3, 25e3, 22e3, 18e3, 14e3, 12e3, 11e3};
constexpr ByMonth kWorkerEggs{0, 150, 500, 900, 1200, 1200, 1100, 800, 500, 200, 0, 0};
constexpr ByMonth kDroneEggs{0, 0, 2, 8, 15, 15, 10, 3, 0, 0, 0, 0};
constexpr ByMonth kLifespan{130, 110, 60, 35, 30, 30, 30, 35, 60, 110, 130, 130};
constexpr ByMonth kDeath{0.002, 0.004, 0.006, 0.006, 0.006, 0.006,
                         0.006, 0.006, 0.006, 0.006, 0.004, 0.002};
constexpr int kHistory = 200, kAhead = 420;  // days of the curves before and after day 0

double degrees(std::optional<Place> place) { return place ? place->lat_udeg / 1e6 : 45.0; }

// Where winter is mild the queen hardly stops; far from the equator she begins later and stops
// sooner. The floor falls with the square of the way to 37 degrees: a straight line gave North
// Florida so much brood in November that the band missed the trial there
// (tests/reference/mites_trials_test.cpp), so it is calibrated on that trial.
double laying_at(double eggs, double latitude, bool worker) {
  const double away = std::abs(latitude);
  const double mild = std::clamp((37 - away) / 12, 0.0, 1.0);
  const double floor = worker ? mild * mild * 600 : 0;
  const double short_season = std::clamp((away - 52) / 10, 0.0, 1.0);
  const double shy = worker && eggs < 600 ? eggs * (1 - 0.5 * short_season) : eggs;
  return std::max(floor, shy);
}

// Straight lines between the middles of the months.
template <class Value>
Curve by_month(const ByMonth& table, Date day0, bool south, Value value) {
  using namespace std::chrono;
  std::vector<CurvePoint> points;
  const year_month first{Date{days(day0) - std::chrono::days{kHistory}}.year(),
                         Date{days(day0) - std::chrono::days{kHistory}}.month()};
  for (year_month m = first;; m += months{1}) {
    const int at = days_apart(day0, Date{m.year(), m.month(), std::chrono::day{15}});
    const unsigned month = static_cast<unsigned>(m.month()) - 1;
    points.push_back({static_cast<double>(at), value(table[(month + (south ? 6 : 0)) % 12])});
    if (at > kAhead) break;
  }
  return Curve(std::move(points));
}

// Days without laying, from what the keeper noted.
std::vector<mites::Cage> cages(const std::vector<BroodNote>& notes, Date day0) {
  std::vector<mites::Cage> list;
  std::optional<int> since;
  for (const BroodNote& n : notes) {
    const int at = days_apart(day0, n.on);
    if (n.what == BroodFact::QueenCaged && !since) since = at;
    if (n.what == BroodFact::QueenReleased && since) {
      if (at > *since) list.push_back({*since, at});
      since.reset();
    }
    // No capped cell and no egg: she has not laid for as long as a drone takes.
    if (n.what == BroodFact::NoBrood) list.push_back({at - 24, at});
  }
  if (since) list.push_back({*since, std::max(*since + 24, 1)});
  return list;
}

}  // namespace

AssumedColony assumed_colony(const std::vector<BroodNote>& brood, std::optional<Place> place,
                             Date day0) {
  const double latitude = degrees(place);
  const bool south = latitude < 0;
  const auto same = [](double v) { return v; };
  AssumedColony out;
  mites::Colony& c = out.colony;
  c.adults = by_month(kAdults, day0, south, same).at(0);
  c.lifespan = by_month(kLifespan, day0, south, same);
  c.worker_eggs =
      by_month(kWorkerEggs, day0, south, [&](double v) { return laying_at(v, latitude, true); });
  c.drone_eggs =
      by_month(kDroneEggs, day0, south, [&](double v) { return laying_at(v, latitude, false); });
  c.phoretic_death = by_month(kDeath, day0, south, same);
  c.cages = cages(brood, day0);
  out.assumptions = {
      fmt::format("Assumed for the time of the year{}: {:.0f} bees, {:.0f} eggs a day.",
                  place ? " and the latitude" : "", std::round(c.adults / 1000) * 1000,
                  std::round(c.worker_eggs.at(0) / 50) * 50),
      "Mites carried in from other colonies are not counted: nobody knows how many come."};
  return out;
}

Date season_end(Date on, std::optional<Place> place) {
  using namespace std::chrono;
  const bool south = place && place->lat_udeg < 0;
  const Date end = south ? Date{on.year() / April / 30} : Date{on.year() / October / 31};
  if (on < end) return end;
  return south ? Date{(on.year() + years{1}) / April / 30}
               : Date{(on.year() + years{1}) / October / 31};
}

}  // namespace engine
