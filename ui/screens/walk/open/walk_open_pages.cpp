// The pages behind the buttons of the opening page: temperature, wind, kit, label, flight.
#include "ui/screens/walk/open/walk_open_pages.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/language/tr.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/base/brood_asked.h"
#include "ui/screens/walk/open/walk_open.h"
#include "ui/screens/walk/plan/walk_opening.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_plan.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::to_translate;
using engine::tr;
using engine::tr_many;
using engine::translated;
namespace {

bool go_back(Touch& t, const WalkPage& page, WalkView& view) {
  const DialogButton done[] = {{tr("Done"), Surface::Chosen}};
  if (!walk_footer(t, page.footer, view, done)) return false;
  view.opening.page = OpenPage::Start;
  return true;
}

// ---- temperature ----

// One degree of the unit shown; the first tap starts where most walks are.
engine::Temperature warmer(std::optional<engine::Temperature> from, int degrees, bool fahrenheit) {
  if (!from) return {200};
  constexpr int kLow = -300, kHigh = 500;  // tenths of a degree Celsius
  int tenths = from->tenths_c + degrees * 10;
  if (fahrenheit) {
    const double f = std::round(32 + from->tenths_c * 0.18) + degrees;
    tenths = static_cast<int>(std::lround((f - 32) / 0.18));
  }
  return {std::clamp(tenths, kLow, kHigh)};
}

constexpr int kPresets[] = {5, 10, 15, 20, 25, 30};  // degrees Celsius, whatever unit is shown

void draw_presets(Touch& t, const Rect& rect, engine::TemperatureUnit unit,
                  std::optional<engine::Temperature>& value) {
  const std::vector<Rect> cells =
      t.portrait() ? grid(rect, 3, 2, t.gap()) : columns(rect, std::size(kPresets), t.gap());
  for (std::size_t i = 0; i < std::size(kPresets); ++i) {
    const engine::Temperature preset{kPresets[i] * 10};
    const Surface surface = value == preset ? Surface::Chosen : Surface::Button;
    if (button(t, cells[i], engine::show(preset, unit), {.surface = surface})) value = preset;
  }
}

void temperature(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Temperature in the yard"));
  if (go_back(t, page, view)) return;
  const auto unit = look.farm.setup.temperature_unit;
  auto& value = view.opening.conditions.temperature;
  const Rect keys = cut_bottom(page.room, t.least_h() * 1.5F, t.gap());
  const float high = t.portrait() ? t.least_h() * 2 + t.gap() : t.least_h() * 1.5F;
  draw_presets(t, cut_bottom(page.room, high, t.gap()), unit, value);
  Rect box = page.room;
  box.h = std::min(box.h, t.mm(36));
  t.fill(box, Surface::Panel, t.mm(0.4F));
  text(t, inset(box, t.mm(2)), value ? engine::show(*value, unit) : tr("not noted"),
       {.size = Size::Huge, .align = Align::Center});
  constexpr std::pair<const char*, int> kSteps[] = {{to_translate("5 less"), -5},
                                                    {to_translate("1 less"), -1},
                                                    {to_translate("1 more"), 1},
                                                    {to_translate("5 more"), 5}};
  const std::vector<Rect> cells = columns(keys, 5, t.gap());
  for (std::size_t i = 0; i < 4; ++i)
    if (button(t, cells[i], translated(kSteps[i].first), {.mark = i < 2 ? Mark::Less : Mark::More}))
      value = warmer(value, kSteps[i].second, unit == engine::TemperatureUnit::Fahrenheit);
  if (button(t, cells[4], tr("Not noted"))) value.reset();
}

// ---- wind ----

struct Point {
  const char* label;
  int degrees;  // -1: calm
};
constexpr std::array<Point, 9> kCompass{{{to_translate("North-west"), 315},
                                         {to_translate("North"), 0},
                                         {to_translate("North-east"), 45},
                                         {to_translate("West"), 270},
                                         {to_translate("Calm"), -1},
                                         {to_translate("East"), 90},
                                         {to_translate("South-west"), 225},
                                         {to_translate("South"), 180},
                                         {to_translate("South-east"), 135}}};

bool is_set(const engine::Conditions& c, int degrees) {
  if (degrees < 0) return !c.wind_from_deg && c.wind_dm_s == 0;
  return c.wind_from_deg == degrees;
}

void wind(Touch& t, const Rect& room, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("The wind comes from"));
  if (go_back(t, page, view)) return;
  engine::Conditions& c = view.opening.conditions;
  std::vector<Choice> list;
  for (const Point& p : kCompass)
    list.push_back({.label = p.label, .chosen = is_set(c, p.degrees)});
  const auto tapped = choices(t, page.room, list, 3, 40);
  if (!tapped) return;
  const int degrees = kCompass[*tapped].degrees;
  c.wind_from_deg = degrees < 0 ? std::nullopt : std::optional(degrees);
  c.wind_dm_s = degrees < 0 ? std::optional(0) : std::nullopt;
  view.opening.page = OpenPage::Start;
}

// ---- kit ----

void kit(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Carried on this walk"));
  if (go_back(t, page, view)) return;
  std::vector<engine::KitId> items;
  std::vector<Phrase> list;
  for (const auto sort : {engine::KitSort::Vaporizer, engine::KitSort::Cloth})
    for (const engine::KitItem* item : engine::kit_of(look.farm, sort)) {
      const bool home = std::find(view.left_at_home.begin(), view.left_at_home.end(), item->id) !=
                        view.left_at_home.end();
      items.push_back(item->id);
      list.push_back({engine::kit_called(look.farm, item->id), !home});
    }
  if (list.empty())
    notice(t, page.room, tr("Kit is empty: add vaporizers and cloths there."), Mark::Warning,
           Surface::Warning);
  const auto tapped = phrases(t, page.room, view.opening.list_page, list);
  if (!tapped) return;
  if (list[*tapped].on)
    view.left_at_home.push_back(items[*tapped]);
  else
    std::erase(view.left_at_home, items[*tapped]);
}

// ---- flight ----

// Asked at START when nobody has said it yet; the answer starts the walk.
Ask flight(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Bees flying?"));
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back)) {
    view.opening.page = OpenPage::Start;
    return {};
  }
  notice(t, page.room, tr("Look at the entrances. Vapor reaches only bees that are home."),
         Mark::Dot, Surface::Panel);
  const Choice list[] = {{tr("None"), tr("starts the walk")},
                         {tr("Some"), tr("starts the walk")},
                         {tr("Heavy"), tr("starts the walk; all go on the come-back list")}};
  const auto tapped = choices(t, page.room, list, t.portrait() ? 1 : 3, 60);
  if (!tapped) return {};
  view.opening.conditions.flight = static_cast<engine::Flight>(*tapped);
  view.opening.flight_said = true;
  view.opening.page = OpenPage::Start;
  engine::WalkOpened body = walk_opening(look, view);
  add_plan(look, view, body);
  if (why_not(look, body) != engine::Refusal::None) return {};  // the page behind says why
  return engine::Body{body};
}

// ---- label ----

Ask label(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Which label is on the product?"));
  if (go_back(t, page, view)) return {};
  notice(
      t, page.room,
      tr("A profile only repeats a label. Hold it against the label in your hand: that decides."),
      Mark::Warning, Surface::Warning);
  if (look.labels.empty()) {
    notice(t, page.room, tr("No label profile was found in the program's folder."), Mark::Cross,
           Surface::Muted);
    return {};
  }
  std::vector<Row> list;
  for (const LabelSeen& seen : look.labels) {
    const auto& rules = look.farm.setup.rules;
    const bool chosen = rules && rules->profile == seen.rules.profile;
    list.push_back({.title = seen.name,
                    .second = tr("{}, {} a brood box, checked {}", seen.region,
                                 shown(look, seen.rules.per_brood_box), seen.checked),
                    .tag = chosen ? tr("in force") : "",
                    .mark = chosen ? Mark::Check : Mark::None,
                    .chosen = chosen,
                    .id = seen.id});
  }
  page.room.y += t.mm(1);
  page.room.h -= t.mm(1);
  const auto tapped = list_rows(t, page.room, view.opening.list_page, list);
  if (!tapped) return {};
  view.opening.page = OpenPage::Start;
  return engine::Body{engine::SetupChanged{.rules = look.labels[*tapped].rules}};
}

// ---- brood, where the label minds it ----

Ask brood(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  const auto unknown = walk_brood_not_known(look, view.opening);
  const std::string line = walk_brood_question(look, view.opening);
  WalkPage page =
      walk_page(t, room, tr("Brood in {}", tr_many("{} colony", "{} colonies", unknown.size())));
  if (go_back(t, page, view)) return {};
  if (unknown.empty()) return view.opening.page = OpenPage::Start, Ask{};
  notice(t, page.room, line, Mark::Warning, Surface::Warning);
  std::vector<Choice> list;
  for (const BroodAnswer& a : kBroodAnswers) list.push_back({.label = a.label, .second = a.second});
  const auto tapped = choices(t, page.room, list, t.portrait() ? 1 : 2, 40);
  if (!tapped) return {};
  view.opening.page = OpenPage::Start;
  const auto note = brood_note(kBroodAnswers[*tapped], unknown, look.today());
  return note ? Ask{engine::Body{*note}} : Ask{};
}

}  // namespace

Ask walk_open_page(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  switch (view.opening.page) {
    case OpenPage::Temperature:
      return temperature(t, room, look, view), Ask{};
    case OpenPage::Wind:
      return wind(t, room, view), Ask{};
    case OpenPage::Kit:
      return kit(t, room, look, view), Ask{};
    case OpenPage::Label:
      return label(t, room, look, view);
    case OpenPage::Brood:
      return brood(t, room, look, view);
    case OpenPage::Flight:
      return flight(t, room, look, view);
    case OpenPage::Plan:
    case OpenPage::PlanCloths:
      return walk_plan(t, room, look, view), Ask{};
    case OpenPage::Start:
      return walk_open(t, room, look, view);
  }
  return {};
}

}  // namespace ui
