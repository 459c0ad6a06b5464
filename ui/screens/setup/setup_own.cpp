// Setup: the keeper's own numbers, each by the keypad and each an entry of its own: when a count is
// too high, when kit is due, how quick the keeper is, where he sets out from.
#include "ui/screens/setup/setup_own.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "engine/kit/upkeep.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

using engine::Season;
using engine::Thresholds;

// In the order of the rows; the first stands for four, by season.
enum Own {
  kThreshold = 40,
  kCleanEvery = 44,
  kCartridgeHours,
  kPace,  // the four of PaceNumber
  kLatitude = kPace + 4,
  kLongitude
};

// How quick the keeper is, as the planner asks for it.
enum PaceNumber { kWalk, kLoadAndSet, kLiftAndCover, kUncover };
constexpr const char* kPaceTitles[] = {"Walking in the yard", "Load and set", "Lift and cover",
                                       "Cloth off"};

constexpr double kMicro = 1e6;

int* tenths_of(Thresholds& all, Season season) {
  int* const by_season[] = {&all.dormant_tenths, &all.increase_tenths, &all.peak_tenths,
                            &all.decline_tenths};
  return by_season[static_cast<std::size_t>(season)];
}

std::vector<Row> threshold_rows(const Look& look) {
  Thresholds now = look.farm.setup.thresholds.value_or(Thresholds{});
  const bool own = look.farm.setup.thresholds.has_value();
  std::vector<Row> rows;
  for (const Season s : {Season::Dormant, Season::Increase, Season::Peak, Season::Decline})
    rows.push_back(field(std::string("Too many, ") + engine::words(s),
                         fmt::format("{:.1f} on 100 bees", *tenths_of(now, s) / 10.0),
                         own ? "local advice comes first" : "usual; local advice comes first"));
  return rows;
}

std::string degrees(int micro, const char* plus, const char* minus) {
  return fmt::format("{:.5f}\u00b0 {}", std::abs(micro) / kMicro, micro < 0 ? minus : plus);
}

std::string place_words(const engine::Place& p) {
  return degrees(p.lat_udeg, "north", "south") + ", " + degrees(p.lon_udeg, "east", "west");
}

engine::Seconds* seconds_of(engine::Pace& p, int number) {
  engine::Seconds* const all[] = {nullptr, &p.load_and_set, &p.lift_and_cover, &p.uncover};
  return all[number];
}

std::vector<Row> pace_rows(const Look& look) {
  engine::Pace p = look.farm.setup.pace.value_or(engine::Pace{});
  const char* second = look.farm.setup.pace ? "plans the walk" : "usual; plans the walk";
  std::vector<Row> rows = {
      field(kPaceTitles[kWalk], fmt::format("{:.1f} m/s", p.walk_mm_s / 1000.0), second)};
  for (int n = kLoadAndSet; n <= kUncover; ++n)
    rows.push_back(field(kPaceTitles[n], fmt::format("{} s", seconds_of(p, n)->count()), second));
  return rows;
}

std::vector<Row> own_rows(const Look& look) {
  const engine::Setup& s = look.farm.setup;
  std::vector<Row> rows = threshold_rows(look);
  rows.push_back(field("Clean a vaporizer after",
                       fmt::format("{} settings", engine::settings_between_cleanings(s)),
                       s.clean_every ? "its manual decides" : "usual; its manual decides"));
  rows.push_back(field(
      "Cartridge lasts",
      s.cartridge_hours ? fmt::format("{} h", *s.cartridge_hours) : std::string("not entered"),
      "its maker and your label say how long"));
  for (Row& row : pace_rows(look)) rows.push_back(std::move(row));
  rows.push_back(field("Home", s.home ? place_words(*s.home) : std::string("not entered"),
                       "where you set out from"));
  return rows;
}

Ask typed_threshold(Touch& t, const Look& look, SetupView& v) {
  const auto season = static_cast<Season>(v.typing.field - kThreshold);
  const NumberAsk ask{std::string("Too many mites on 100 bees: ") + engine::words(season),
                      "on 100 bees", 0.1, 20, 1};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return {};
  Thresholds all = look.farm.setup.thresholds.value_or(Thresholds{});
  *tenths_of(all, season) = static_cast<int>(std::lround(value * 10));
  return engine::Body{engine::SetupChanged{.thresholds = all}};
}

Ask typed_upkeep(Touch& t, SetupView& v) {
  const bool clean = v.typing.field == kCleanEvery;
  const NumberAsk ask =
      clean ? NumberAsk{"Settings of a vaporizer between cleanings", "settings", 1, 999}
            : NumberAsk{"Hours until a cartridge is changed", "h", 1, 999};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return {};
  engine::SetupChanged e;
  (clean ? e.clean_every : e.cartridge_hours) = static_cast<int>(value);
  return engine::Body{e};
}

Ask typed_pace(Touch& t, const Look& look, SetupView& v) {
  const int number = v.typing.field - kPace;
  const NumberAsk ask =
      number == kWalk
          ? NumberAsk{kPaceTitles[kWalk], "m/s", 0.1, 3, 1}
          : NumberAsk{std::string(kPaceTitles[number]) + ": the hands' work", "s", 1, 600};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return {};
  engine::Pace pace = look.farm.setup.pace.value_or(engine::Pace{});
  if (number == kWalk)
    pace.walk_mm_s = static_cast<int>(std::lround(value * 1000));
  else
    *seconds_of(pace, number) = engine::Seconds{static_cast<int>(value)};
  return engine::Body{engine::SetupChanged{.pace = pace}};
}

// Nothing while it was never entered.
std::string typed_degrees(const Look& look, int micro) {
  if (micro == 0 && !look.farm.setup.home) return {};
  return fmt::format("{:.5f}\u00b0", std::abs(micro) / kMicro);
}

void type_degrees(Touch& t, SetupView& v) {
  const bool latitude = v.typing.field == kLatitude;
  const NumberAsk ask = latitude ? NumberAsk{"Latitude of home", "\u00b0", 0, 90, 5}
                                 : NumberAsk{"Longitude of home", "\u00b0", 0, 180, 5};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return;
  int& to = latitude ? v.home->lat_udeg : v.home->lon_udeg;
  const int size = static_cast<int>(std::lround(value * kMicro));
  to = to < 0 ? -size : size;
}

}  // namespace

Ask typing_own(Touch& t, const Look& look, SetupView& v, bool& covered) {
  const int f = v.typing.field;
  covered = f >= kThreshold && f <= kLongitude;
  if (!covered) return {};
  if (f < kCleanEvery) return typed_threshold(t, look, v);
  if (f < kPace) return typed_upkeep(t, v);
  if (f < kLatitude) return typed_pace(t, look, v);
  if (v.home) type_degrees(t, v);
  return {};
}

void own_section(Touch& t, const Rect& room, const Look& look, SetupView& v) {
  const auto tapped = list_rows(t, room, v.page, own_rows(look));
  if (!tapped) return;
  const int f = kThreshold + static_cast<int>(*tapped);
  if (f < kLatitude) return start_number(v.typing, f);
  v.home = look.farm.setup.home.value_or(engine::Place{});
}

Ask home_page(Touch& t, Rect room, const Look& look, SetupView& v) {
  bool back = false;
  head(t, room, "Home", "where you set out from; as a map or a receiver shows it", &back);
  engine::Place& p = *v.home;
  const engine::Body body = engine::SetupChanged{.home = p};
  const bool changed = look.farm.setup.home != p && p != engine::Place{};
  const Act list[] = {{.label = "Save home",
                       .second = changed ? "" : "nothing is changed",
                       .enabled = changed && why_not(look, body) == engine::Refusal::None,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  Row rows[] = {
      field("Latitude", typed_degrees(look, p.lat_udeg)),
      field("Which half", p.lat_udeg < 0 ? "south of the equator" : "north of the equator",
            "tap to change"),
      field("Longitude", typed_degrees(look, p.lon_udeg)),
      field("Which side", p.lon_udeg < 0 ? "west of Greenwich" : "east of Greenwich",
            "tap to change")};
  rows[1].enabled = p.lat_udeg != 0, rows[3].enabled = p.lon_udeg != 0;
  const auto tapped = list_rows(t, room, v.page, rows);
  if (tapped == 0U) start_number(v.typing, kLatitude);
  if (tapped == 1U) p.lat_udeg = -p.lat_udeg;
  if (tapped == 2U) start_number(v.typing, kLongitude);
  if (tapped == 3U) p.lon_udeg = -p.lon_udeg;
  if (back || save) v.home.reset();
  return save ? Ask{body} : Ask{};
}

}  // namespace ui
