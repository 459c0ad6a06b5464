// The window and the trip, and how the screens say them.
#include "ui/screens/answers/tonight.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "engine/words/words.h"

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
// Last night's goes on after the clock's midnight where it gets dark that late.
constexpr Window kWindows[] = {{"Tonight", HomePart::Evening, -1},
                               {"This dawn", HomePart::Dawn, 0},
                               {"Tonight", HomePart::Evening, 0},
                               {"Tomorrow at dawn", HomePart::Dawn, 1}};

// Without the gate.
double assumed_minutes(const engine::Farm& farm, const engine::TripYard& visit) {
  const engine::EveningPace pace;
  return pace.per_colony_min * static_cast<double>(engine::colonies_of(farm, visit).size());
}

void plan_trip(const Look& look, const TripLengths& lengths, engine::TripWish wish, Tonight& out) {
  const engine::EveningPace pace;
  for (const engine::TripYard& y : out.due)
    if (const engine::WalkLength* known = lengths.of(y.yard)) out.planned[y.yard] = *known;
  wish.minutes_of = [&](engine::YardId yard) {
    const auto known = out.planned.find(yard);
    if (known != out.planned.end()) return pace.gate_min + known->second.minutes;
    const auto visit = std::find_if(out.due.begin(), out.due.end(),
                                    [&](const engine::TripYard& y) { return y.yard == yard; });
    return pace.gate_min + assumed_minutes(look.farm, *visit);
  };
  out.trip = engine::trip_of(look.farm, out.due, wish);
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

Tonight tonight_of(const Look& look, const engine::Due& due, const TripLengths& lengths) {
  const engine::Stamp& now = look.now;
  Tonight out;
  out.zone = now.zone;
  out.due = engine::yards_to_visit(look.farm, due);
  for (const Window& window : kWindows) {
    const engine::TripWish wish = wish_of(window, now);
    auto bees = engine::home_of_yard(look.farm, {}, wish);
    if (!bees) return out;
    const bool gone = over(*bees, now) || (window.part == HomePart::Dawn && !bees->lamp);
    if (window.days < 0 && (gone || !bees->lamp)) continue;
    if (gone && window.days == 0) continue;
    if (out.bees) {
      out.after = std::move(bees);
      return out;
    }
    out.when = window.when;
    out.on = wish.on;
    out.part = wish.part;
    out.bees = std::move(bees);
    plan_trip(look, lengths, wish, out);
    if (window.part == HomePart::Dawn) return out;
  }
  return out;
}

double window_minutes(const Tonight& tonight) {
  if (!tonight.bees || !tonight.bees->lamp) return 0;
  return static_cast<double>(tonight.bees->lamp->length().count());
}

std::vector<engine::TripYard> yards_of(const Tonight& tonight) {
  if (!tonight.trip) return tonight.due;
  std::vector<engine::TripYard> list;
  for (const engine::VisitOnClock& v : tonight.trip->visits)
    for (const engine::TripYard& y : tonight.due)
      if (y.yard == v.yard) list.push_back(y);
  return list;
}

std::vector<const engine::Colony*> evening_colonies(const Look& look, const Tonight& tonight) {
  std::vector<const engine::Colony*> list;
  for (const engine::TripYard& y : yards_of(tonight)) {
    const auto some = engine::colonies_of(look.farm, y);
    list.insert(list.end(), some.begin(), some.end());
  }
  return list;
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

std::string leave_words(const Tonight& tonight) {
  return at_clock(tonight.trip->leave, tonight.zone);
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
