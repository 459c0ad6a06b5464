// Vapor or a passing over that is entered afterwards: when it happened is asked, when it was
// entered is the entry's own time.
#include "ui/screens/register/register_late.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "engine/core/status.h"
#include "engine/farm/queries.h"
#include "engine/register/day.h"
#include "ui/screens/base/body_fields.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

// The walk of that yard on that day which is over; the last one where there were several.
const engine::Walk* walk_of_day(const Look& look, engine::YardId yard, engine::Date on) {
  const engine::Walk* last = nullptr;
  for (const engine::Walk* w : engine::walks_of(look.farm, yard))
    if (w->closed && engine::local_date(w->opened) == on) last = w;
  return last;
}

const engine::LabelRules* rules_for(const Look& look, const engine::Walk* walk) {
  if (walk != nullptr) return &walk->rules;
  return look.farm.setup.rules ? &*look.farm.setup.rules : nullptr;
}

void begin(const Look& look, LateView& v, engine::YardId yard) {
  v = {};
  v.yard = yard;
  v.draft.yard = yard;
  v.draft.on = plus_days(look.today(), -1);
  v.draft.operator_name = look.farm.setup.operator_name;
  v.draft.operator_address = look.farm.setup.operator_address;
}

void choose_yard(Touch& t, Rect room, const Look& look, RegisterView& v) {
  bool back = false;
  head(t, room, "Enter late", "vapor or a passing over: in which yard?", &back);
  if (back) v.page_of = BookPage::Day;
  const auto yards = engine::yards(look.farm);
  if (yards.empty()) return nothing_here(t, room, "There is no yard yet.");
  const auto tapped = list_rows(t, room, v.late.page, yards.size(), [&](std::size_t i) {
    const std::size_t n = engine::colonies_of(look.farm, yards[i]->id).size();
    return Row{.title = yards[i]->name,
               .second = engine::counted(n, "colony", "colonies"),
               .id = engine::text(yards[i]->id)};
  });
  if (tapped) begin(look, v.late, yards[*tapped]->id);
}

bool holds(const LateView& v, engine::ColonyId id) {
  return std::find(v.colonies.begin(), v.colonies.end(), id) != v.colonies.end();
}

void choose_colonies(Touch& t, Rect room, const Look& look, LateView& v) {
  bool back = false;
  head(t, room, "Which colonies?",
       engine::counted(v.colonies.size(), "colony chosen", "colonies chosen"), &back);
  if (back) v.choosing = false;
  const auto all = engine::colonies_of(look.farm, *v.yard);
  const Act list[] = {{.label = "All of them", .enabled = !all.empty()}, {.label = "None"}};
  const auto act = acts(t, room, list);
  if (act) v.colonies.clear();
  if (act == 0U)
    for (const engine::Colony* c : all) v.colonies.push_back(c->id);
  const auto tapped = list_rows(t, room, v.page, all.size(), [&](std::size_t i) {
    const bool on = holds(v, all[i]->id);
    return Row{.title = all[i]->name,
               .tag = on ? "CHOSEN" : "",
               .mark = on ? Mark::Check : Mark::None,
               .tag_surface = Surface::Good,
               .chosen = on,
               .id = engine::text(all[i]->id)};
  });
  if (!tapped) return;
  const engine::ColonyId id = all[*tapped]->id;
  if (holds(v, id))
    std::erase(v.colonies, id);
  else
    v.colonies.push_back(id);
}

FormField dose_field(const Look& look, LateView& v) {
  FormField f = mass_field(look, "Dose", v.draft.dose, 100);
  const auto set = std::get<NumberField>(f.edit).set;
  std::get<NumberField>(f.edit).set = [&v, set](double value) {
    v.own_dose = true;
    set(value);
  };
  if (!v.own_dose) f.value = "as the label prompts for its boxes";
  f.hint = "for each colony";
  return f;
}

// The colonies are no field of their own kind: the tap opens their list.
constexpr const char* kColonies = "Colonies";
FormField colonies_field(const Look& look, const LateView& v) {
  std::string names;
  for (const engine::ColonyId id : v.colonies)
    names += (names.empty() ? "" : ", ") + std::string(engine::colony_name(look.farm, id));
  if (v.colonies.size() > 4) names = engine::counted(v.colonies.size(), "colony", "colonies");
  return {kColonies, names, "tap to choose", OptionsField{}};
}

std::vector<FormField> fields_of_late(const Look& look, LateView& v) {
  engine::EnteredLate& d = v.draft;
  std::vector<FormField> list = {
      colonies_field(look, v),
      day_field(
          "Day", d.on, [&d](engine::Date on) { d.on = on; }, from_today(d.on, look.today())),
      time_field(d.minute),
      given_or_passed_field(d.passed,
                            [&d](std::optional<engine::PassReason> passed) { d.passed = passed; })};
  if (!d.passed) {
    list.push_back(dose_field(look, v));
    add_late_course(look, d, list);
  }
  add_late_words(look, d, list);
  return list;
}

// One entry for each colony, in one walk.
std::vector<engine::Body> bodies_of(const Look& look, const LateView& v) {
  const engine::Walk* walk = walk_of_day(look, *v.yard, v.draft.on);
  const engine::LabelRules* rules = rules_for(look, walk);
  std::vector<engine::Body> bodies;
  if (rules == nullptr) return bodies;
  for (const engine::ColonyId id : v.colonies) {
    engine::EnteredLate e = v.draft;
    const engine::Colony& colony = look.farm.colonies.at(id);
    e.walk = walk != nullptr ? walk->id : engine::WalkId{look.fresh_id};
    e.colony = id;
    e.rules = *rules;
    e.brood_boxes = colony.brood_boxes;
    e.supers_on = colony.supers_on;
    if (e.passed) {
      e.dose = {}, e.lot.reset(), e.dwell.reset(), e.seal.reset();
    } else if (!v.own_dose) {
      e.dose = engine::prompted_dose(e.rules, e.brood_boxes);
    }
    bodies.emplace_back(std::move(e));
  }
  return bodies;
}

// Whether they may be saved.
engine::Status may_save(const Look& look, const LateView& v,
                        const std::vector<engine::Body>& bodies) {
  if (v.colonies.empty()) return {engine::Code::BadInput, "choose the colonies first"};
  if (bodies.empty()) return {engine::Code::BadInput, "choose a label in Setup first"};
  for (const engine::Body& body : bodies)
    if (const engine::Refusal r = why_not(look, body); r != engine::Refusal::None)
      return {engine::Code::BadInput, engine::sentence(r)};
  return {};
}

std::string joins(const Look& look, const LateView& v) {
  const engine::Walk* walk = walk_of_day(look, *v.yard, v.draft.on);
  const std::string yard = look.farm.yards.at(*v.yard).name;
  return walk == nullptr ? yard : yard + ", joins the walk of that day";
}

}  // namespace

Ask late_page(Touch& t, Rect room, const Look& look, RegisterView& book) {
  LateView& v = book.late;
  if (!v.yard || look.farm.yards.count(*v.yard) == 0) {
    choose_yard(t, room, look, book);
    return {};
  }
  if (v.choosing) {
    choose_colonies(t, room, look, v);
    return {};
  }
  const std::vector<FormField> fields = fields_of_late(look, v);
  if (v.form.typing.field >= 0 &&
      fields[std::min(static_cast<std::size_t>(v.form.typing.field), fields.size() - 1)].name ==
          kColonies) {
    v.form.typing = {};
    v.choosing = true;
  }
  if (form_panel(t, look, v.form, fields)) return {};
  bool back = false;
  head(t, room, "Enter late", joins(look, v), &back);
  const std::vector<engine::Body> bodies = bodies_of(look, v);
  const engine::Status may = may_save(look, v, bodies);
  const Act list[] = {{.label = "Save late entry",
                       .second = may.message(),
                       .enabled = may.ok(),
                       .surface = Surface::Action,
                       .big = true},
                      {.label = "Count or other treatment", .second = "from the colony's page"}};
  const auto tapped = acts(t, room, list);
  form_fields(t, room, v.form, fields);
  if (tapped == 1U) {
    assert(v.yard);
    return ToYard{*v.yard};
  }
  if (back) v.yard.reset();
  if (tapped != 0U) return {};
  book.page_of = BookPage::Day;
  book.late = {};
  return Entries{bodies};
}

}  // namespace ui
