// The trip on a clock: when to leave, which yard when, when home again.
#include <fmt/format.h>

#include "engine/register/words.h"
#include "ui/screens/grammar.h"
#include "ui/screens/today_parts.h"

namespace ui {

namespace {

std::string clock(std::chrono::sys_seconds t, const Tonight& tonight) {
  engine::Stamp stamp;
  stamp.at = t;
  stamp.zone = tonight.zone;
  return engine::clock_time(stamp);
}

Row row_of(const Look& look, const Tonight& tonight, const engine::VisitOnClock& v) {
  Row row;
  row.title = fmt::format("{}  {}", clock(v.walk_from, tonight), look.farm.yards.at(v.yard).name);
  row.second = "walk until " + clock(v.walk_until, tonight);
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

std::vector<std::string> notes_of(const Tonight& tonight) {
  const engine::EveningPace pace;
  std::vector<std::string> lines = {window_words(tonight)};
  if (tonight.bees) lines.push_back(trust_words(tonight));
  if (tonight.trip) {
    for (const engine::YardLeftOut& out : tonight.trip->left_out)
      lines.push_back("Left out: " + out.line);
    lines.push_back(
        fmt::format("Assumed: a walk takes {:.0f} min at the gate and {:.0f} min a "
                    "colony.",
                    pace.gate_min, pace.per_colony_min));
    if (!tonight.trip->drives_known)
      lines.push_back(fmt::format("Assumed: {:.0f} min for a drive that nobody entered.",
                                  pace.unknown_drive_min));
  }
  if (tonight.after) {
    Tonight dawn = tonight;
    dawn.when = "Or tomorrow at dawn";
    dawn.bees = tonight.after;
    lines.push_back(window_words(dawn));
  }
  return lines;
}

}  // namespace

void trip_page(Touch& t, const Rect& whole, const Look& look, const Tonight& tonight,
               TodayView& view) {
  Rect room = whole;
  bool back = false;
  head(t, room, "The trip", window_label(tonight), &back);
  if (back) view.trip = false;
  const Rect side = t.portrait() ? cut_bottom(room, room.h * 0.5F, t.gap())
                                 : cut_right(room, room.w * 0.48F, t.gap());
  paragraphs(t, side, view.notes_page, notes_of(tonight));
  if (!tonight.trip || tonight.trip->visits.empty()) {
    nothing_here(t, room, tonight.trip ? "No yard that is due fits in." : "No yard is due.");
    return;
  }
  std::vector<Row> rows = rows_of(look, tonight);
  for (Row& row : rows) fit_row(t, row, room.w);
  list_rows(t, room, view.trip_page, rows, RowKind::Shown);
}

void window_button(Touch& t, const Rect& rect, const Tonight& tonight, TodayView& view) {
  const std::string label = window_label(tonight), line = trip_words(tonight);
  if (button(t, rect, label, {.second = line, .id = "The trip"})) view.trip = true;
}

}  // namespace ui
