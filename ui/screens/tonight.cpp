// The window and the trip, and how the screens say them.
#include "ui/screens/tonight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "engine/register/words.h"

namespace ui {

namespace {

using engine::HomePart;

std::string at_clock(std::chrono::sys_seconds t, std::chrono::minutes zone) {
  engine::Stamp stamp;
  stamp.at = t;
  stamp.zone = zone;
  return engine::clock_time(stamp);
}

std::string capital(std::string words) {
  if (!words.empty())
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
  return words;
}

struct Window {
  const char* when;
  HomePart part;
  int days;
};
constexpr Window kWindows[] = {{"This dawn", HomePart::Dawn, 0},
                               {"Tonight", HomePart::Evening, 0},
                               {"Tomorrow at dawn", HomePart::Dawn, 1}};

// What is due by its days over, then what is to be visited again. Not the yard of the walk that is
// under way there already.
std::vector<engine::TripYard> yards_due(const engine::Farm& farm, const engine::Due& due) {
  std::vector<engine::TripYard> list;
  const auto add = [&](engine::YardId yard, int over) {
    const bool walked =
        std::any_of(farm.walk_under_way.begin(), farm.walk_under_way.end(),
                    [&](const auto& under) { return farm.walks.at(under.second).yard == yard; });
    const bool there = std::any_of(list.begin(), list.end(),
                                   [&](const engine::TripYard& y) { return y.yard == yard; });
    if (!walked && !there) list.push_back({yard, over});
  };
  for (const engine::DueRound& r : due.rounds) add(r.yard, r.days_over);
  for (const engine::ComeBack& c : due.come_backs) add(c.yard, 0);
  return list;
}

// All colonies of a round, only some to come back to.
double walk_minutes(const engine::Farm& farm, const engine::Due& due, engine::YardId yard) {
  const engine::EveningPace pace;
  for (const engine::DueRound& r : due.rounds)
    if (r.yard == yard) return engine::assumed_walk_minutes(farm, yard, pace);
  const auto again = std::count_if(due.come_backs.begin(), due.come_backs.end(),
                                   [&](const engine::ComeBack& c) { return c.yard == yard; });
  return pace.gate_min + pace.per_colony_min * static_cast<double>(again);
}

engine::TripWish wish_of(const Window& window, const engine::Stamp& now) {
  engine::TripWish wish;
  wish.on = engine::date_after(engine::local_date(now), window.days);
  wish.part = window.part;
  wish.zone = now.zone;
  using FiveMinutes = std::chrono::duration<std::int64_t, std::ratio<300>>;
  wish.not_before = std::chrono::ceil<FiveMinutes>(now.at);
  return wish;
}

bool over(const engine::BeesHome& bees, const engine::Stamp& now) {
  return bees.lamp ? bees.lamp->until <= now.at : false;
}

}  // namespace

Tonight tonight_of(const engine::Farm& farm, const engine::Due& due, const engine::Stamp& now) {
  Tonight out;
  out.zone = now.zone;
  for (const Window& window : kWindows) {
    engine::TripWish wish = wish_of(window, now);
    auto bees = engine::home_of_yard(farm, {}, wish);
    if (!bees) return out;
    const bool gone = over(*bees, now) || (window.part == HomePart::Dawn && !bees->lamp);
    if (gone && window.days == 0) continue;
    if (out.bees) {
      out.after = std::move(bees);
      return out;
    }
    out.when = window.when;
    out.bees = std::move(bees);
    wish.minutes_of = [&](engine::YardId yard) { return walk_minutes(farm, due, yard); };
    out.trip = engine::trip_of(farm, yards_due(farm, due), wish);
    if (window.part == HomePart::Dawn) return out;
  }
  return out;
}

std::string window_words(const Tonight& tonight) {
  if (!tonight.bees)
    return "When are the bees home? Enter where a yard lies: read it from your spreadsheet.";
  const engine::BeesHome& bees = *tonight.bees;
  const auto clock = [&](std::chrono::sys_seconds t) { return at_clock(t, tonight.zone); };
  if (!bees.lamp) return tonight.when + ": no time at which the bees are surely home";
  if (!bees.light)
    return fmt::format("{}: bees home, no daylight; headlamp {} to {}", tonight.when,
                       clock(bees.lamp->from), clock(bees.lamp->until));
  if (bees.lamp->from < bees.light->from)
    return fmt::format("{}: bees home until {}; light from {}, headlamp from {}", tonight.when,
                       clock(bees.light->until), clock(bees.light->from), clock(bees.lamp->from));
  return fmt::format("{}: bees home from {}; light until {}, headlamp until {}", tonight.when,
                     clock(bees.light->from), clock(bees.light->until), clock(bees.lamp->until));
}

std::string trust_words(const Tonight& tonight) {
  if (!tonight.bees) return {};
  return fmt::format("{}. {}", capital(engine::words(tonight.bees->trust)), tonight.bees->why);
}

std::string window_label(const Tonight& tonight) {
  if (!tonight.bees) return "Bees home when?";
  const engine::BeesHome& bees = *tonight.bees;
  if (!bees.lamp) return "No sure time tonight";
  return fmt::format("{} {} to {}", tonight.when == "Tonight" ? "Tonight" : "Dawn",
                     at_clock(bees.lamp->from, tonight.zone),
                     at_clock(bees.lamp->until, tonight.zone));
}

std::string trip_words(const Tonight& tonight) {
  if (!tonight.bees) return "no place is known";
  if (!tonight.bees->lamp) return "the sun does not set";
  const std::string trust = fmt::format("bees home: {}; ", engine::name(tonight.bees->trust));
  if (!tonight.trip) return trust + "no yard is due";
  if (tonight.trip->visits.empty()) return trust + "no yard fits";
  return fmt::format("{}{}, leave {}", trust,
                     engine::counted(tonight.trip->visits.size(), "yard", "yards"),
                     at_clock(tonight.trip->leave, tonight.zone));
}

}  // namespace ui
