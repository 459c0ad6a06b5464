// The trip on a clock: when to leave, which yard when, when home again; what to pack for it, and
// how warm the air is expected to be.
#include "ui/screens/today/trip_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/today/pack_panel.h"

namespace ui {

namespace {

constexpr int kAir = 1;           // the field that is typed
constexpr double kNobody = 1000;  // degrees; the preset that takes back what was said

std::string clock(std::chrono::sys_seconds t, const Tonight& tonight) {
  engine::Stamp stamp;
  stamp.at = t;
  stamp.zone = tonight.zone;
  return engine::clock_time(stamp);
}

Row row_of(const Look& look, const Tonight& tonight, const engine::VisitOnClock& v) {
  Row row;
  row.title = fmt::format("{}  {}", clock(v.walk_from, tonight), look.farm.yards.at(v.yard).name);
  const bool planned = tonight.planned.contains(v.yard);
  row.second = fmt::format("until {}, {}", clock(v.walk_until, tonight),
                           planned ? "planned" : "length assumed");
  if (v.arrive < v.walk_from) row.second += ", there at " + clock(v.arrive, tonight);
  row.id = "trip " + engine::text(v.yard);
  return row;
}

std::vector<Row> rows_of(const Look& look, const Tonight& tonight) {
  const engine::TripOnClock& trip = *tonight.trip;
  std::vector<Row> rows;
  rows.push_back({clock(trip.leave, tonight) + "  leave home"});
  for (const engine::VisitOnClock& v : trip.visits) rows.push_back(row_of(look, tonight, v));
  rows.push_back({clock(trip.home, tonight) + "  back home"});
  return rows;
}

std::string list_of(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& w : words) out += (out.empty() ? "" : ", ") + w;
  return out;
}

// Where the lengths of the walks come from.
void tell_lengths(const Look& look, const Tonight& tonight, std::vector<std::string>& lines) {
  const engine::EveningPace pace;
  std::vector<std::string> planned, shorter, assumed;
  for (const engine::TripYard& y : yards_of(tonight)) {
    const std::string& name = look.farm.yards.at(y.yard).name;
    const auto at = tonight.planned.find(y.yard);
    if (at == tonight.planned.end()) {
      assumed.push_back(name);
      continue;
    }
    planned.push_back(fmt::format("{} {:.0f} min", name, std::ceil(at->second.minutes)));
    if (at->second.shortened) shorter.push_back(name);
  }
  if (!tonight.settled) lines.emplace_back("Still planning the walks.");
  if (!planned.empty())
    lines.push_back(fmt::format("Walks by the plan: {}; {:.0f} min more at the gate (assumed).",
                                list_of(planned), pace.gate_min));
  if (!shorter.empty())
    lines.push_back("Only with a shorter seal: " + list_of(shorter) +
                    ". The whole seal ends after the window.");
  if (!assumed.empty() && tonight.settled)
    lines.push_back(
        fmt::format("Walks assumed: {}: {:.0f} min at the gate and {:.0f} min a colony, "
                    "until there is kit to plan with.",
                    list_of(assumed), pace.gate_min, pace.per_colony_min));
}

std::vector<std::string> notes_of(const Look& look, const Tonight& tonight) {
  std::vector<std::string> lines;
  if (tonight.trip && !tonight.trip->more.empty())
    lines.push_back("Or, as you choose: " + tonight.trip->more);
  if (tonight.trip)
    for (const engine::YardLeftOut& out : tonight.trip->left_out)
      lines.push_back("Left out: " + out.line);
  lines.push_back(window_words(tonight));
  if (tonight.bees) lines.push_back(trust_words(tonight));
  if (tonight.trip) {
    tell_lengths(look, tonight, lines);
    if (!tonight.trip->drives_known)
      lines.push_back(fmt::format("Assumed: {:.0f} min for a drive that nobody entered.",
                                  engine::EveningPace{}.unknown_drive_min));
  }
  if (tonight.after) {
    Tonight dawn = tonight;
    dawn.when = "Or tomorrow at dawn";
    dawn.bees = tonight.after;
    lines.push_back(window_words(dawn));
  }
  return lines;
}

// ---- the air ----

const char* at_what(const Tonight& tonight) {
  return tonight.part == engine::HomePart::Evening ? "dusk" : "dawn";
}

Ask type_air(Touch& t, const Look& look, const Tonight& tonight, TodayView& view) {
  NumberAsk ask =
      ask_air(look, fmt::format("Air expected at {}, {}", at_what(tonight), day_words(tonight.on)));
  if (engine::air_expected(look.farm, tonight.on, tonight.part))
    ask.presets = {{"Not known", kNobody}};
  double value = 0;
  if (!typed_number(t, view.typing, ask, value)) return {};
  engine::AirExpected e{tonight.on, tonight.part, {}};
  if (value != kNobody) e.air = air_typed(look, value);
  return engine::Body{e};
}

Ask draw_foot(Touch& t, const Rect& foot, const Look& look, const Tonight& tonight,
              TodayView& view) {
  const auto cells = columns(foot, 2, t.gap());
  const auto air = engine::air_expected(look.farm, tonight.on, tonight.part);
  const std::string said =
      air ? engine::show(*air, look.farm.setup.temperature_unit) + " expected" : "not entered";
  if (button(t, cells[0], fmt::format("Air at {}", at_what(tonight)),
             {.enabled = tonight.bees.has_value(), .second = said}))
    start_number(view.typing, kAir);
  if (button(t, cells[1], "Pack list")) return ToPackList{};
  return {};
}

}  // namespace

Ask trip_page(Touch& t, const Rect& whole, const Look& look, TodayView& view) {
  const Tonight& tonight = look.answers.season.tonight(look);
  if (!tonight.settled) t.wake_in(0);
  if (view.typing.field == kAir) return type_air(t, look, tonight, view);
  Rect room = whole;
  bool back = false;
  head(t, room, "The trip", window_label(tonight), &back);
  if (back) view.trip = false;
  Rect side = t.portrait() ? cut_bottom(room, room.h * 0.58F, t.gap())
                           : cut_right(room, room.w * 0.5F, t.gap());
  const Ask asked = draw_foot(t, cut_bottom(side, t.least_h(), t.gap()), look, tonight, view);
  const auto colonies = evening_colonies(look, tonight);
  if (!colonies.empty()) {
    Rect& beside = t.portrait() ? side : room;
    if (pack_panel(t, cut_bottom(beside, t.mm(30), t.gap()), look, "Pack for the trip",
                   look.answers.season.pack(look, colonies)))
      return ToPackList{};
  }
  paragraphs(t, side, view.notes_page, notes_of(look, tonight));
  if (!tonight.trip || tonight.trip->visits.empty()) {
    nothing_here(t, room, tonight.trip ? "No yard that is due fits in." : "No yard is due.");
    return asked;
  }
  std::vector<Row> rows = rows_of(look, tonight);
  for (Row& row : rows) fit_row(t, row, room.w);
  list_rows(t, room, view.trip_page, rows, RowKind::Shown);
  return asked;
}

void window_button(Touch& t, const Rect& rect, const Tonight& tonight, TodayView& view) {
  const std::string label = window_label(tonight), line = trip_words(tonight);
  if (button(t, rect, label, {.second = line, .id = "The trip"})) view.trip = true;
}

}  // namespace ui
