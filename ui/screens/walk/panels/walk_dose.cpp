// The dose of the next setting: prompt, more or less, label's most, and what the colony really has.
#include "ui/screens/walk/panels/walk_dose.h"

#include <algorithm>
#include <cmath>

#include "engine/language/tr.h"
#include "engine/method/obey.h"
#include "engine/words/words.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::translated;
namespace {

// Whatever the boxes (engine/rules/label.h).
constexpr engine::Mass kMost = engine::kMostEntered;
constexpr double kMgPerOunce = 28'349.523125;  // avoirdupois, by definition

bool ounces(const Look& look) { return look.farm.setup.mass_unit == engine::MassUnit::Ounce; }

engine::Mass step_of(const Look& look) {
  return ounces(look) ? engine::Mass{std::llround(kMgPerOunce / 100)} : engine::Mass{250};
}

// During a dwell the dose is that of the colony after, not of the one under vapor.
std::string title_for(const Look& look, const engine::Walk& walk, const WalkView& view,
                      const engine::Colony& colony) {
  const engine::Advice a = advice_now(look, walk, view.under_way.chosen);
  if (a.colony == colony.id) return tr("Dose for {}", colony.name);
  return tr("Next: {}, its dose", colony.name);
}

struct Dosing {
  const Look& look;
  const engine::Walk& walk;
  const engine::Colony& colony;
  engine::Mass prompt, dose;
  std::optional<engine::Mass> most;
};

void set_dose(WalkView& view, const Dosing& d, engine::Mass dose) {
  view.under_way.dose = std::clamp(dose, engine::Mass{10}, kMost);
  view.under_way.dose_for = d.colony.id;
  if (dose == d.prompt) view.under_way.dose.reset();
}

void draw_dose(Touch& t, Rect rect, const Dosing& d) {
  const bool over = engine::over_label(d.walk.rules, d.dose, d.colony.brood_boxes);
  t.fill(rect, over ? Surface::Warning : Surface::Panel, t.mm(0.4F));
  Rect room = inset(rect, t.mm(3), t.mm(2));
  std::string line = translated(engine::words(d.walk.rules.basis));
  if (const auto pure = engine::dihydrate(d.walk.rules, d.dose))
    line += tr("\n= {} anhydrous", shown(d.look, engine::anhydrous(*pure)));
  line += d.most ? tr("\nlabel's most: {}", shown(d.look, *d.most))
                 : tr("\nthe label profile sets no most");
  for (const std::string& against : engine::against_label(
           d.look.farm, {d.colony.id, d.look.today(), d.colony.supers_on}, d.walk.rules))
    line += tr("\nAGAINST THE LABEL: {}", against);
  if (over) line += tr("\nOVER THE LABEL: must be held, and stays in the register so");
  text(t, cut_left(room, room.w * 0.38F, t.mm(2)), shown(d.look, d.dose),
       {.size = Size::Huge, .align = Align::Center});
  text(t, room, line, {.size = Size::Body});
}

void draw_presets(Touch& t, const Rect& rect, const Dosing& d, WalkView& view) {
  const engine::Mass step = step_of(d.look);
  const std::vector<Rect> cells =
      t.portrait() ? grid(rect, 3, 2, t.gap()) : columns(rect, 5, t.gap());
  if (button(t, cells[0], tr("Less"), {.enabled = d.dose > step, .mark = Mark::Less}))
    set_dose(view, d, d.dose - step);
  if (button(t, cells[1], tr("More"), {.mark = Mark::More})) set_dose(view, d, d.dose + step);
  const std::string prompt = tr("Prompt {}", shown(d.look, d.prompt));
  if (button(t, cells[2], prompt)) set_dose(view, d, d.prompt);
  const std::string most =
      d.most ? tr("Label most {}", shown(d.look, *d.most)) : tr("No label most");
  if (button(t, cells[3], most, {.enabled = d.most.has_value()}) && d.most)
    set_dose(view, d, *d.most);
  if (button(t, cells[4], tr("Type it"))) {
    view.under_way.number = {};
    view.under_way.panel = WalkPanel::DoseKeys;
  }
}

// What the colony really has, where the list was wrong.
Ask draw_colony(Touch& t, const Rect& rect, const Dosing& d, WalkView& view) {
  const std::vector<Rect> cells = t.portrait() ? rows(rect, 2, t.gap()) : columns(rect, 2, t.gap());
  const int boxes = d.colony.brood_boxes;
  const int change =
      stepper(t, cells[0], tr("Brood boxes"), std::to_string(boxes), boxes > 1, boxes < 9);
  if (change != 0) {
    view.under_way.dose.reset();  // the prompt follows the boxes
    return engine::ColonyChanged{.colony = d.colony.id, .brood_boxes = boxes + change};
  }
  const bool forbidden = d.walk.rules.supers == engine::Supers::Forbidden;
  if (check_row(t, cells[1], tr("Honey supers on"), d.colony.supers_on,
                forbidden ? tr("the label forbids them") : ""))
    return engine::ColonyChanged{.colony = d.colony.id, .supers_on = !d.colony.supers_on};
  return {};
}

// The keys need the whole screen.
void type_dose(Touch& t, const Dosing& d, WalkView& view) {
  Rect room = dialog_panel(t, title_for(d.look, d.walk, view, d.colony));
  const Rect foot = cut_bottom(room, t.least_h(), t.gap());
  const double unit = ounces(d.look) ? kMgPerOunce : 1000;
  const double most = static_cast<double>(kMost.mg) / unit;
  const NumberAsk ask{.title = "",
                      .unit = ounces(d.look) ? "oz" : "g",
                      .low = ounces(d.look) ? 0.001 : 0.01,
                      .high = std::floor(most * 100) / 100,
                      .decimals = ounces(d.look) ? 3 : 2};
  walk_footer(t, foot, view, {});
  const Entry end = keypad(t, room, ask, view.under_way.number);
  if (end == Entry::Open) return;
  if (end == Entry::Done) set_dose(view, d, {std::llround(view.under_way.number.value * unit)});
  view.under_way.panel = WalkPanel::Dose;
}

}  // namespace

Ask walk_dose(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view) {
  const DialogButton back[] = {{tr("Back")}};
  const auto id = next_to_set(look, walk, view.under_way);
  if (!id) {
    WalkPage page = walk_page(t, room, tr("Dose"));
    notice(t, page.room, tr("No colony is left to set."), Mark::Dot, Surface::Muted);
    if (walk_footer(t, page.footer, view, back)) view.under_way.panel = WalkPanel::None;
    return {};
  }
  const engine::Colony& colony = look.farm.colonies.at(*id);
  const Dosing d{look,
                 walk,
                 colony,
                 engine::prompted_dose(walk.rules, colony.brood_boxes),
                 dose_for(look, walk, view.under_way, *id),
                 engine::label_most(walk.rules, colony.brood_boxes)};
  if (view.under_way.panel == WalkPanel::DoseKeys) return type_dose(t, d, view), Ask{};
  WalkPage page = walk_page(t, room, title_for(look, walk, view, colony));
  const float two = t.least_h() * 2 + t.gap();
  const Rect boxes = cut_bottom(page.room, t.portrait() ? two : t.least_h() * 1.15F, t.gap());
  const Rect presets = cut_bottom(page.room, t.portrait() ? two : t.least_h() * 1.15F, t.gap());
  draw_dose(t, page.room, d);
  draw_presets(t, presets, d, view);
  if (walk_footer(t, page.footer, view, back)) view.under_way.panel = WalkPanel::None;
  return draw_colony(t, boxes, d, view);
}

}  // namespace ui
