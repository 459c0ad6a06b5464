#include "ui/screens/setup/setup_label.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

std::string grams(const Look& look, const engine::LabelRules& r) {
  return engine::words(r.per_brood_box, r.basis, engine::units_of(look.farm.setup)) +
         " for each brood box";
}

bool in_force(const Look& look, const LabelSeen& label) {
  return look.farm.setup.rules && look.farm.setup.rules->profile == label.rules.profile;
}

std::vector<std::string> facts_of(const Look& look, const LabelSeen& label) {
  const engine::Units units = engine::units_of(look.farm.setup);
  const engine::LabelRules& r = label.rules;
  std::vector<std::string> lines = {
      r.per_brood_box.mg > 0 ? "Dose that is prompted: " + grams(look, r)
                             : std::string("The dose is not known: type that of your label.")};
  if (r.most_per_brood_box)
    lines.push_back("At most " + engine::words(*r.most_per_brood_box, r.basis, units) +
                    " for each brood box");
  if (r.most_per_colony)
    lines.push_back("At most " + engine::words(*r.most_per_colony, r.basis, units) +
                    " for a colony, whatever its boxes");
  lines.push_back(std::string("Honey supers: ") + engine::words(r.supers));
  if (r.limits)
    for (std::string& line : engine::limit_lines(*r.limits)) lines.push_back(std::move(line));
  lines.push_back("Cartridge: " + r.cartridge);
  for (const std::string& caution : label.cautions) lines.push_back("Caution: " + caution);
  lines.push_back("Source: " + label.source + ". Last checked " + label.checked + ".");
  return lines;
}

// Whether another tablet has a label that its keeper may use here.
bool label_offered(const Look& look) {
  const auto& offers = look.answers.offers(look.farm);
  return std::any_of(offers.begin(), offers.end(),
                     [](const engine::Offer& o) { return o.change.rules.has_value(); });
}

Row offered_row() {
  return {.title = "Another tablet has a label: use it here too?",
          .second = "tap to look at it",
          .tag = "LOOK AT IT",
          .mark = Mark::Warning,
          .tag_surface = Surface::Warning,
          .id = "label of another tablet"};
}

// One row that leads to what is wrong with the files, or none.
std::vector<Row> refused_rows(const Look& look) {
  if (look.refused_files.empty()) return {};
  const std::size_t n = look.refused_files.size();
  return {{.title = engine::counted(n, "file was", "files were") + " left out",
           .second = "tap to read why",
           .tag = "NOT GOOD",
           .mark = Mark::Warning,
           .tag_surface = Surface::Warning,
           .id = "files left out"}};
}

// A label whose grams nobody knows here: they are typed before it can be used.
Ask dose_asked(Touch& t, Rect room, const Look& look, SetupView& v, const LabelSeen& label,
               bool back) {
  constexpr int kDose = 5;
  double value = 0;
  const NumberAsk ask{"Dose for each brood box, as on your label", mass_unit(look), 0.001,
                      mass_shown(look, engine::kMostEntered), 3};
  if (v.typing.field == kDose) {
    if (!typed_number(t, v.typing, ask, value)) return {};
    engine::SetupChanged e;
    e.rules = label.rules;
    e.rules->per_brood_box = mass_typed(look, value);
    if (why_not(look, e) != engine::Refusal::None) return {};
    v.label.reset();
    return engine::Body{e};
  }
  const Act list[] = {{.label = "Type the dose",
                       .second = label.check_your_label,
                       .surface = Surface::Action,
                       .big = true}};
  if (acts(t, room, list)) start_number(v.typing, kDose);
  paragraphs(t, room, v.page, facts_of(look, label));
  if (back) v.label.reset(), v.page = 0;
  return {};
}

// The one in force stands first: that is what a keeper comes to look at.
std::vector<const LabelSeen*> in_order(const Look& look) {
  std::vector<const LabelSeen*> list;
  for (const LabelSeen& label : look.labels) list.push_back(&label);
  std::stable_partition(list.begin(), list.end(),
                        [&](const LabelSeen* label) { return in_force(look, *label); });
  return list;
}

}  // namespace

Ask label_section(Touch& t, Rect room, const Look& look, SetupView& v) {
  const Rect foot = cut_bottom(room, line_height(t, Size::Body) + 2, t.gap());
  text(t, foot, "Check your label: the one in your hand decides.");
  const bool offered = label_offered(look);
  std::vector<Row> rows = refused_rows(look);
  const std::size_t refused = rows.size();
  if (offered) rows.push_back(offered_row());
  const std::size_t before = rows.size();
  const std::vector<const LabelSeen*> labels = in_order(look);
  for (const LabelSeen* label : labels) {
    Row row{.title = label->region + ": " + label->name, .id = label->id};
    row.chosen = in_force(look, *label);
    if (row.chosen) {
      row.tag = "IN FORCE";
      row.mark = Mark::Check;
      row.tag_surface = Surface::Good;
    }
    fit_row(t, row, room.w);
    rows.push_back(row);
  }
  if (look.labels.empty() && before == 0)
    nothing_here(t, room, "No label profiles were found on this tablet.");
  if (const auto tapped = list_rows(t, room, v.page, rows)) {
    v.refused = *tapped < refused;
    if (offered && *tapped == refused) return ToTablets{};
    if (*tapped >= before) v.label = labels[*tapped - before]->id;
    v.page = 0;
  }
  return {};
}

void refused_page(Touch& t, Rect room, const Look& look, SetupView& v) {
  bool back = false;
  head(t, room, "Files left out", "put them right on a computer, then start again", &back);
  std::vector<std::string> lines;
  for (const std::string& line : look.refused_files) lines.push_back(without_folders(line));
  paragraphs(t, room, v.page, lines);
  if (!back) return;
  v.refused = false;
  v.page = 0;
}

Ask label_page(Touch& t, Rect room, const Look& look, SetupView& v, const LabelSeen& label) {
  bool back = false;
  head(t, room, label.region, label.name, &back);
  engine::SetupChanged e;
  e.rules = label.rules;
  const bool now = in_force(look, label), asked = label.rules.per_brood_box.mg == 0;
  if (asked) return dose_asked(t, room, look, v, label, back);
  const Act list[] = {{.label = now ? "Take its numbers again" : "Use this label",
                       .second = label.check_your_label,
                       .enabled = why_not(look, e) == engine::Refusal::None,
                       .surface = Surface::Action,
                       .hold = now,
                       .big = true}};
  const bool use = acts(t, room, list).has_value();
  paragraphs(t, room, v.page, facts_of(look, label));
  if (back || use) v.label.reset();
  if (back || use) v.page = 0;
  if (!use) return {};
  return engine::Body{e};
}

}  // namespace ui
