#include "ui/screens/today/getting_ready.h"

#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/base/layout.h"
#include "ui/screens/base/pictured.h"

namespace ui {

namespace {

using engine::KitSort;

// "2 cloths"; empty where there are none.
std::string number_of(std::size_t n, const char* one, const char* more) {
  return n == 0 ? std::string() : engine::counted(n, one, more);
}

FirstStep yard_step(const Look& look) {
  return {.name = "Yard",
          .there = number_of(engine::yards(look.farm).size(), "yard", "yards"),
          .icon = Icon::Yards,
          .act = "Add a yard",
          .why = "Its name is enough. A spreadsheet can be read later.",
          .way = ToNewYard{}};
}

FirstStep hives_step(const Look& look) {
  const auto yards = engine::yards(look.farm);
  std::size_t hives = 0;
  for (const engine::Yard* yard : yards) hives += engine::colonies_of(look.farm, yard->id).size();
  return {.name = "Hives",
          .there = number_of(hives, "hive", "hives"),
          .icon = Icon::Walk,
          .act = "Add hives",
          .why = "Brood boxes decide the dose.",
          .way = yards.empty() ? GoTo{ToNewYard{}} : GoTo{ToYard{yards.front()->id}}};
}

FirstStep label_step(const Look& look) {
  const bool there = look.farm.setup.rules.has_value();
  return {.name = "Label",
          .there = there ? "Label" : "",
          .icon = Icon::Register,
          .act = "Choose your label",
          .why = "The one in your hand decides dose, brood and supers.",
          .way = ToLabels{}};
}

FirstStep kit_step(const Look& look, KitSort sort, const char* one, const char* more) {
  const std::size_t have = engine::kit_of(look.farm, sort).size();
  const std::string number = std::to_string(have + 1);  // kit is mostly numbered
  FirstStep step;
  step.there = number_of(have, one, more);
  step.way = ToKit{sort};
  step.name = more;
  step.name[0] = static_cast<char>(step.name[0] - 'a' + 'A');
  step.act = fmt::format("Add {} {}", one, number);
  step.adds = engine::KitAdded{engine::KitId{look.fresh_id}, sort, number};
  return step;
}

FirstStep vaporizer_step(const Look& look) {
  FirstStep step = kit_step(look, KitSort::Vaporizer, "vaporizer", "vaporizers");
  step.icon = Icon::Kit;
  step.why = "Each is timed by its own dwells.";
  return step;
}

FirstStep cloths_step(const Look& look) {
  FirstStep step = kit_step(look, KitSort::Cloth, "cloth", "cloths");
  step.icon = Icon::Cloth;
  step.why = "Write its number on it. More of them: tap the picture.";
  return step;
}

FirstStep batteries_step(const Look& look) {
  FirstStep step = kit_step(look, KitSort::Battery, "battery", "batteries");
  step.icon = Icon::Battery;
  step.why = "How far a charge goes is learned from your walks.";
  step.later = true;
  return step;
}

FirstStep respirator_step(const Look& look) {
  FirstStep step = kit_step(look, KitSort::Respirator, "respirator", "respirators");
  step.icon = Icon::Cartridge;
  step.why = "Acid vapor harms eyes and lungs: none, no walk.";
  return step;
}

FirstStep acid_step(const Look& look) {
  return {.name = "Acid",
          .there = number_of(look.farm.lots.size(), "lot of acid", "lots of acid"),
          .icon = Icon::Acid,
          .later = true,
          .act = "Add your acid",
          .why = "Product and lot stand in the register.",
          .way = ToKit{}};
}

FirstStep name_step(const Look& look) {
  return {.name = "Your name",
          .there = look.farm.setup.operator_name,
          .icon = Icon::Setup,
          .later = true,
          .act = "Say who treats",
          .why = "Your name stands in the register.",
          .way = ToOperator{}};
}

// The first yard with hives.
std::optional<engine::YardId> first_yard(const Look& look) {
  for (const engine::Yard* yard : engine::yards(look.farm))
    if (!engine::colonies_of(look.farm, yard->id).empty()) return yard->id;
  return std::nullopt;
}

// What is needed first, then what can be said later; none: all is there.
const FirstStep* next_of(const std::vector<FirstStep>& steps, bool later) {
  const auto at = std::find_if(steps.begin(), steps.end(), [&](const FirstStep& s) {
    return s.there.empty() && s.later == later;
  });
  return at == steps.end() ? nullptr : &*at;
}

std::optional<GoTo> draw_steps(Touch& t, const Rect& room, const std::vector<FirstStep>& steps,
                               const FirstStep* next) {
  std::optional<GoTo> tapped;
  const std::vector<Rect> cells = grid(room, 3, (steps.size() + 2) / 3, t.gap());
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const FirstStep& s = steps[i];
    const bool there = !s.there.empty();
    const PicturedLook look{.surface = there        ? Surface::Good
                                       : &s == next ? Surface::Active
                                                    : Surface::Button,
                            .chosen = &s == next,
                            .id = s.name};
    const std::string label = there ? s.there : s.later ? s.name + " (later)" : s.name;
    if (pictured_button(t, cells[i], label, there ? Icon::Check : s.icon, look)) tapped = s.way;
  }
  return tapped;
}

// The one act: the next step that is needed; when none is, the walk itself.
Ask draw_next(Touch& t, const Rect& rect, const Look& look, const FirstStep* next) {
  const auto yard = first_yard(look);
  const bool ready = next == nullptr && yard.has_value();
  const Icon icon = ready ? Icon::Go : next != nullptr ? next->icon : Icon::Yards;
  ActLook act;
  act.picture = [&](const Rect& box, Colour ink) { draw_icon(t.draw(), icon, box, ink); };
  if (ready) {
    act.line = "What is missing can be said later.";
    if (act_button(t, rect, "First walk", act)) return GoTo{ToOpening{*yard}};
    return {};
  }
  if (next == nullptr) return {};
  act.line = next->why;
  if (!act_button(t, rect, next->act, act)) return {};
  return next->adds ? Ask{*next->adds} : Ask{next->way};
}

}  // namespace

std::vector<FirstStep> first_steps(const Look& look) {
  return {yard_step(look),      hives_step(look),      label_step(look),
          vaporizer_step(look), respirator_step(look), cloths_step(look),
          batteries_step(look), acid_step(look),       name_step(look)};
}

bool is_first_use(const engine::Farm& farm) {
  return farm.walks.empty() && farm.courses.empty() && farm.counts.empty() &&
         farm.vaporized.keys() == 0 && farm.otherwise_treated.keys() == 0;
}

Ask getting_ready(Touch& t, Rect room, const Look& look) {
  const std::vector<FirstStep> steps = first_steps(look);
  const FirstStep* next = next_of(steps, false);
  const auto there = static_cast<std::size_t>(std::count_if(
      steps.begin(), steps.end(), [](const FirstStep& s) { return !s.there.empty(); }));
  const Rect foot = cut_bottom(room, t.mm(t.portrait() ? 44 : 34), t.gap());
  const Rect line = cut_top(room, high(t, Role::Title), t.gap());
  say(t, line, fmt::format("{} of {} ready for a first walk", there, steps.size()), Role::Title);
  const auto way = draw_steps(t, room, steps, next);
  const Ask asked = draw_next(t, foot, look, next);
  return way ? Ask{*way} : asked;
}

}  // namespace ui
