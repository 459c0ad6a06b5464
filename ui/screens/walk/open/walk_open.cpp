// Opening a walk: everything in short, and START. What is not noted stays unnoted; a keeper in a
// hurry taps once.
#include "ui/screens/walk/open/walk_open.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/kit/upkeep.h"
#include "engine/language/tr.h"
#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/walk/open/walk_left_on.h"
#include "ui/screens/walk/plan/walk_opening.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_plan.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::tr_many;
using engine::translated;
namespace {

// Below this vapor is advised against: an evaporator's instruction sheet (undated), "not below
// +4 C". The label may say otherwise.
constexpr engine::Temperature kCold{40};

// ---- warnings, the gravest first ----

void warn_stock(const Look& look, const std::vector<const engine::Colony*>& list,
                std::vector<std::string>& out) {
  const engine::PackList* pack = look.answers.season.pack(look, list);
  if (pack == nullptr) return;
  for (const std::string& what : engine::stock_missing(look.farm, *pack))
    out.push_back(capital_word(what) + ".");
}

std::vector<std::string> warnings(const Look& look, const WalkView& view) {
  std::vector<std::string> out;
  const auto list = colonies_to_walk(look, view.opening);
  const auto& rules = look.farm.setup.rules;
  for (const std::string& line : walk_against_label(look, view.opening))
    out.push_back(tr("Against your label: {}", line));
  if (std::string line = walk_brood_question(look, view.opening); !line.empty())
    out.push_back(std::move(line));
  if (respirator_of(look) == nullptr) out.push_back(tr("No respirator in Kit."));
  if (view.opening.conditions.flight == engine::Flight::Heavy)
    out.push_back(tr("Bees fly heavily: all go on the come-back list."));
  const auto supers = static_cast<std::size_t>(std::count_if(
      list.begin(), list.end(), [](const engine::Colony* c) { return c->supers_on; }));
  if (supers > 0 && rules && rules->supers == engine::Supers::Forbidden)
    out.insert(out.begin(), tr("Do not treat: supers on {}. The label forbids it.",
                               tr_many("{} colony", "{} colonies", supers)));
  if (supers > 0 && rules && rules->supers == engine::Supers::Unknown)
    out.push_back(tr_many("{} colony has", "{} colonies have", supers) +
                  tr(" honey supers on: check your label."));
  if (view.opening.conditions.temperature && *view.opening.conditions.temperature < kCold)
    out.push_back(tr("Cold: below {} the bees sit tight. Check your label.",
                     engine::show(kCold, look.farm.setup.temperature_unit)));
  if (carried(look, view, engine::KitSort::Cloth).empty())
    out.push_back(tr("No cloth carried: entrances stay open after the vapor."));
  warn_stock(look, list, out);
  if (look.farm.setup.operator_name.empty())
    out.push_back(tr("No operator name in Setup: the register wants one."));
  return out;
}

// As many as fit; what does not is counted.
void draw_warnings(Touch& t, Rect room, const std::vector<std::string>& list) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const float more = i + 1 < list.size() ? line_height(t, Size::Body) : 0;
    if (room.h < notice_height(t, list[i], room.w) + more) {
      text(t, cut_top(room, line_height(t, Size::Body)),
           tr("and {} more to look at", list.size() - i), {.quiet = true});
      return;
    }
    notice(t, room, list[i], Mark::Warning, Surface::Warning);
  }
}

// ---- what is noted ----

std::string temperature_words(const Look& look, const engine::Conditions& c) {
  return c.temperature ? engine::show(*c.temperature, look.farm.setup.temperature_unit)
                       : tr("not noted");
}

std::string kit_words(const Look& look, const WalkView& view) {
  return tr_many("{} vaporizer", "{} vaporizers",
                 carried(look, view, engine::KitSort::Vaporizer).size()) +
         ", " +
         tr_many("{} cloth", "{} cloths", carried(look, view, engine::KitSort::Cloth).size());
}

void draw_label(Touch& t, const Rect& rect, const Look& look, WalkView& view) {
  const auto& rules = look.farm.setup.rules;
  const std::string label = rules ? tr("Label: {}", rules->product) : tr("Choose the label");
  const std::string second =
      rules ? tr("{} {} a brood box. Check your label.", shown(look, rules->per_brood_box),
                 translated(engine::words(rules->basis)))
            : tr("the dose comes from it");
  if (button(
          t, rect, label,
          {.surface = rules ? Surface::Button : Surface::Warning, .second = second, .id = "label"}))
    view.opening.page = OpenPage::Label;
}

void draw_facts(Touch& t, const Rect& rect, const Look& look, WalkView& view) {
  const std::vector<Rect> lines = rows(rect, 3, t.gap());
  const std::vector<Rect> first = columns(lines[0], 2, t.gap());
  const std::vector<Rect> second = columns(lines[1], 2, t.gap());
  engine::Conditions& c = view.opening.conditions;
  if (button(t, first[0], tr("Temperature: {}", temperature_words(look, c)), {.id = "temperature"}))
    view.opening.page = OpenPage::Temperature;
  if (button(t, first[1], tr("Wind: {}", wind_words(c)), {.id = "wind"}))
    view.opening.page = OpenPage::Wind;
  if (button(t, second[0], c.rain ? tr("Rain: yes") : tr("Rain: no"), {.id = "rain"}))
    c.rain = !c.rain;
  if (button(t, second[1], tr("Carried: {}", kit_words(look, view)), {.id = "carried"}))
    view.opening.page = OpenPage::Kit;
  const std::size_t unknown = walk_brood_not_known(look, view.opening).size();
  if (unknown == 0) return draw_label(t, lines[2], look, view);
  const std::vector<Rect> third = columns(lines[2], 2, t.gap());
  draw_label(t, third[0], look, view);
  if (button(t, third[1], tr("Brood: not known in {}", unknown),
             {.surface = Surface::Warning, .second = tr("the label asks"), .id = "brood"}))
    view.opening.page = OpenPage::Brood;
}

void draw_flight(Touch& t, Rect rect, WalkView& view) {
  text(t, cut_top(rect, line_height(t, Size::Body), t.mm(1)), tr("Bees flying now"),
       {.quiet = true});
  const std::vector<std::string> options = {tr("None"), tr("Some"), tr("Heavy")};
  const int said = view.opening.flight_said ? static_cast<int>(view.opening.conditions.flight) : -1;
  const auto tapped = choice(t, rect, options, said);
  if (!tapped) return;
  view.opening.conditions.flight = static_cast<engine::Flight>(*tapped);
  view.opening.flight_said = true;
}

// ---- START ----

Ask draw_start(Touch& t, Rect rect, const Look& look, WalkView& view) {
  if (carried(look, view, engine::KitSort::Vaporizer).empty()) {
    notice(t, rect, tr("No vaporizer in Kit or carried."), Mark::Warning, Surface::Warning);
    rect.h = std::min(rect.h, t.mm(34));
    if (action_button(t, rect, tr("Go to Kit"))) return ToScreen{ScreenName::Kit};
    return {};
  }
  const auto list = colonies_to_walk(look, view.opening);
  if (!look.farm.setup.rules) {
    action_button(t, rect, tr("START"), tr("choose the label first"), false);
    return {};
  }
  engine::Mass acid;
  for (const engine::Colony* c : list)
    acid = acid + engine::prompted_dose(*look.farm.setup.rules, c->brood_boxes);
  const std::string line =
      fmt::format("{}, {} {}", tr_many("{} colony", "{} colonies", list.size()), shown(look, acid),
                  translated(engine::words(look.farm.setup.rules->basis)));
  engine::WalkOpened body = walk_opening(look, view);
  const engine::Refusal refusal = why_not(look, body);
  const bool may = refusal == engine::Refusal::None;
  const bool against = may && !walk_against_label(look, view.opening).empty();
  const bool unsure = may && !walk_brood_question(look, view.opening).empty();
  const std::string why = against ? tr("against the label: hold, it stands in the register")
                                  : tr("brood not known: hold, it stands in the register");
  const ButtonLook held{.surface = Surface::Warning, .second = why, .large = true};
  const bool start = against || unsure
                         ? hold_button(t, rect, tr("START"), held)
                         : action_button(t, rect, tr("START"),
                                         may ? line : translated(engine::sentence(refusal)), may);
  if (!start) return {};
  if (view.opening.flight_said) {
    add_plan(look, view, body);
    return engine::Body{body};
  }
  view.opening.page = OpenPage::Flight;
  return {};
}

struct OpenPlan {
  Rect flight, facts, plan, warnings, start;
};

OpenPlan open_plan(const Touch& t, Rect room, std::size_t warnings) {
  OpenPlan p;
  Rect left = room;
  const bool wide = !t.portrait();
  if (wide) left = cut_left(room, std::floor(room.w * 0.58F), t.gap());
  p.flight = cut_top(left, t.least_h() + line_height(t, Size::Body) + t.mm(1), t.gap());
  const float lines = 3 * t.least_h() + 2 * t.gap();
  p.facts = wide ? left : cut_top(left, lines, t.gap());
  p.facts.h = std::min(p.facts.h, lines * 1.3F);
  Rect rest = wide ? room : left;
  p.plan = cut_top(rest, t.least_h(), t.gap());
  const float most = std::min(rest.h - t.mm(26), t.mm(20) * static_cast<float>(warnings));
  p.warnings = cut_top(rest, most, warnings > 0 ? t.mm(2) : 0);
  p.start = rest;
  return p;
}

}  // namespace

Ask walk_open(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  const std::string yard = look.farm.yards.at(*view.opening.yard).name;
  WalkPage page = walk_page(t, room, tr("Walk {}", yard));
  const DialogButton buttons[] = {{tr("Other yard")}};
  if (walk_footer(t, page.footer, view, buttons)) {
    view.opening.yard.reset();
    view.opening.only.clear();
    return {};
  }
  Ask asked = cloth_left_on(t, page.room, look, *view.opening.yard);
  const std::vector<std::string> warned = warnings(look, view);
  const OpenPlan plan = open_plan(t, page.room, warned.size());
  draw_flight(t, plan.flight, view);
  draw_facts(t, plan.facts, look, view);
  draw_plan_button(t, plan.plan, look, view);
  draw_warnings(t, plan.warnings, warned);
  Ask started = draw_start(t, plan.start, look, view);
  return std::holds_alternative<std::monostate>(asked) ? started : asked;
}

}  // namespace ui
