#include "ui/screens/courses/courses_methods.h"

#include <fmt/format.h>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

using engine::MethodVerdict;

Row method_row(const engine::MethodRules& m, const engine::YardMethodCheck& c, std::size_t all) {
  Row row{.title = m.name};
  row.id = m.id;
  const MethodVerdict v = c.verdict;
  row.tag = v == MethodVerdict::MayUse   ? "MAY USE"
            : v == MethodVerdict::NotNow ? "NOT NOW"
                                         : "CHECK LABEL";
  row.mark = v == MethodVerdict::MayUse   ? Mark::Dot
             : v == MethodVerdict::NotNow ? Mark::Cross
                                          : Mark::Warning;
  row.tag_surface = v == MethodVerdict::NotNow ? Surface::Muted : Surface::Panel;
  for (const auto& r : c.reasons) {
    if (!row.second.empty()) row.second += " ";
    row.second += r.reason.line;
    if (r.colonies.size() < all) row.second += fmt::format(" ({} of {})", r.colonies.size(), all);
  }
  return row;
}

std::string air_line(const Look& look, engine::YardId yard) {
  const auto air = engine::air_known(look.farm, yard, look.today());
  if (!air)
    return "Nobody noted today's air, or said what is expected of the evening (Today, The trip): "
           "hold it against your label.";
  return fmt::format("Air today: {}, {}.", engine::show(air->air, look.farm.setup.temperature_unit),
                     air->expected ? "expected at dusk" : "as noted when a walk was opened");
}

}  // namespace

void methods_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, "Which treatment: " + yard.name, "your label decides; this only reads its rules",
       &back);
  if (back) v.page_of = CoursesPage::Yard;
  if (look.methods.empty()) return nothing_here(t, room, "No rules of treatments were found.");
  std::vector<std::string> lines = {air_line(look, yard.id)};
  const auto& checks = look.answers.season.methods(look.farm, yard.id, look.methods, look.today());
  const std::size_t all = engine::colonies_of(look.farm, yard.id).size();
  for (std::size_t i = 0; i < look.methods.size() && i < checks.size(); ++i) {
    const Row row = method_row(look.methods[i], checks[i], all);
    lines.push_back(fmt::format("{}: {}. {}", row.tag, row.title,
                                row.second.empty() ? "Nothing speaks against it." : row.second));
  }
  paragraphs(t, room, v.method_page, lines);
}

Ask brood_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, "Brood and queens: " + yard.name, "noted today for every colony of the yard",
       &back);
  engine::BroodNoted note{{}, look.today()};
  for (const engine::Colony* c : engine::colonies_of(look.farm, yard.id))
    note.colonies.push_back(c->id);
  std::vector<Act> list;
  for (const auto what : {engine::BroodFact::QueenCaged, engine::BroodFact::QueenReleased,
                          engine::BroodFact::NoBrood, engine::BroodFact::BroodSeen}) {
    note.what = what;
    const bool none = what == engine::BroodFact::NoBrood;
    list.push_back({.label = engine::words(what),
                    .second = none ? "nor eggs, nor larvae" : "",
                    .enabled = why_not(look, note) == engine::Refusal::None,
                    .hold = true});
  }
  const auto tapped = acts(t, room, list);
  const auto window = yard_window(look, yard.id);
  const std::string lines[] = {
      "No brood means: no capped cell, no eggs and no larvae either; from eggs there are caps "
      "within days.",
      window ? window_line(*window, look.today())
             : std::string("No broodless time is known: not every colony was noted as caged or "
                           "without brood."),
      fmt::format("After caging, all cells are open by day {}. Release her within a week of that.",
                  engine::kDaysToBroodless)};
  paragraphs(t, room, v.line_page, lines);
  if (back || tapped) v.page_of = CoursesPage::Yard;
  if (!tapped) return {};
  note.what = static_cast<engine::BroodFact>(*tapped);
  return engine::Body{note};
}

}  // namespace ui
