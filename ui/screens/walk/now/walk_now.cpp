// The walk under way: the yard as a picture, one button for what to do now, the clocks, and the
// buttons for what goes wrong. Everything keeps its place from step to step, so that a glove finds
// it without looking.
#include "ui/screens/walk/now/walk_now.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/guide/last_light.h"
#include "engine/language/tr.h"
#include "engine/walk/come_back.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/walk/now/walk_act.h"
#include "ui/screens/walk/now/walk_alarm.h"
#include "ui/screens/walk/now/walk_choices.h"
#include "ui/screens/walk/now/walk_layout.h"
#include "ui/screens/walk/now/walk_timers.h"
#include "ui/screens/walk/now/walk_yard.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"
#include "ui/touch/paint.h"

namespace ui {

using engine::to_translate;
using engine::tr;
using engine::translated;

using engine::Do;

namespace {

std::string alarm_words(const Look& look, const std::vector<DueTimer>& due) {
  const std::string first = words(due.front(), look.farm);
  return due.size() == 1 ? first : fmt::format("{}  +{}", first, due.size() - 1);
}

// When it ends by the plan and what light is left; the yard where there is no plan.
std::string ending_words(const Look& look, const engine::Walk& walk) {
  const engine::Lead* led = lead(look, walk);
  if (led == nullptr) return engine::yard_called(look.farm, walk.yard);
  const engine::Ms took{std::llround(led->plan.finish_s * 1000)};
  return engine::ending(engine::after(walk.opened, took),
                        engine::last_light(look.farm, walk.yard, walk.opened))
      .words;
}

// Where the wind goes, north up, as on the picture of the yard.
void draw_wind_note(Touch& t, Rect& rect, const engine::Walk& walk) {
  if (!walk.conditions.wind_from_deg) return;
  Rect box = cut_right(rect, t.mm(7) + wide(t, tr("wind"), Role::Small) + t.mm(1), t.mm(3));
  const InkPen pen{t.draw(), t.theme()[Surface::Page].ink, t.mm(0.6F)};
  draw_wind(pen, cut_left(box, t.mm(7), t.mm(1)), *walk.conditions.wind_from_deg);
  say(t, box, tr("wind"), Role::Small, {.quiet = true});
}

Surface surface_of_stop(const engine::Walk& walk, const engine::Stop& stop) {
  switch (stop.phase) {
    case engine::Phase::UnderVapor:
      return Surface::Active;
    case engine::Phase::Covered:
      return Surface::Waiting;
    case engine::Phase::Done:
      return engine::reasons_to_come_back(walk, stop).empty() ? Surface::Good : Surface::Warning;
    case engine::Phase::PassedOver:
    case engine::Phase::ToDo:
      break;
  }
  return Surface::Muted;
}

// A square for each hive, as it stands on the picture; a bar where they are too many.
void draw_done(Touch& t, const Rect& rect, const engine::Walk& walk, std::size_t done) {
  const auto n = static_cast<float>(std::max<std::size_t>(1, walk.stops.size()));
  const float side = t.mm(3.4F);
  const float pitch = std::min(side + t.mm(1.4F), rect.w / n);
  if (pitch < side + t.mm(0.6F))
    return progress(t, {rect.x, rect.mid_y() - t.mm(2), rect.w, t.mm(4)},
                    static_cast<float>(done) / n, Surface::Page);
  Rect box{rect.x, rect.mid_y() - side / 2, side, side};
  for (const engine::Stop& stop : walk.stops) {
    const Surface surface = surface_of_stop(walk, stop);
    const Skin& skin = t.theme()[surface];
    const bool plain = surface == Surface::Muted;
    if (!plain) paint_rect(t.draw(), box, skin.edge);
    paint_frame(t.draw(), box, skin.edge, t.mm(0.3F));
    if (stop.phase == engine::Phase::PassedOver) draw_skip({t.draw(), skin.ink, t.mm(0.4F)}, box);
    box.x += pitch;
  }
}

void draw_strip(Touch& t, Rect rect, const Look& look, const engine::Walk& walk) {
  const std::size_t done = had_their_turn(walk);
  const std::string count = tr("{} of {}", done, walk.stops.size());
  say(t, cut_left(rect, wide(t, count, Role::Title), t.mm(4)), count, Role::Title);
  const std::string clock = engine::clock_time(look.now);
  say(t, cut_right(rect, wide(t, clock, Role::Title), t.mm(4)), clock, Role::Title,
      {.align = Align::Right});
  const auto due = due_timers(look.farm, look.device, look.now, lead(look, walk));
  if (!due.empty()) return flash_bar(t, rect, alarm_words(look, due));
  draw_wind_note(t, rect, walk);
  const std::string ends = ending_words(look, walk);
  const float most = std::min(rect.w * 0.75F, wide(t, ends, Role::Body));
  text(t, cut_right(rect, most, t.mm(4)), ends, {.align = Align::Right, .quiet = true});
  if (rect.w >= t.mm(15)) draw_done(t, rect, walk, done);
}

// "Saved: A3 seal leaking"; empty where the entry is no note.
std::string note_words(const Look& look, const engine::Body& body) {
  const auto saved = [&](const std::optional<engine::ColonyId>& colony, const std::string& what) {
    return tr("Saved: {}{}", colony ? called(look, *colony) + " " : "", what);
  };
  if (const auto* e = std::get_if<engine::Mishap>(&body))
    return saved(e->colony, translated(engine::words(e->what)));
  if (const auto* e = std::get_if<engine::BeesFlying>(&body))
    return saved(e->colony, translated(engine::words(e->flight)));
  if (const auto* e = std::get_if<engine::ColonyPassedOver>(&body))
    return saved(e->colony, tr("skipped, {}", translated(engine::words(e->reason))));
  if (const auto* e = std::get_if<engine::VaporHalted>(&body))
    return saved(e->colony, translated(engine::words(e->why)));
  return {};
}

// The same, once the note that was asked for stands in the farm; until the next tap.
std::string saved_words(const Look& look, const UnderWay& view) {
  if (!view.noted_since || look.farm.log.size() <= *view.noted_since) return {};
  const engine::EntryHandle last = engine::last_entry(look.farm, look.device);
  return last == nullptr ? std::string() : note_words(look, last->event.body);
}

// What a tap may change: when one of these is other than before, somebody tapped.
auto tapped_state(const WalkView& view) {
  return std::make_tuple(view.under_way.panel, view.under_way.chosen, view.first_aid);
}

// Under the picture: what was saved, what is the matter, or what comes next.
void draw_word(Touch& t, Rect& yard, const Look& look, const UnderWay& view, const Step& s,
               const std::string& next) {
  const std::string saved = saved_words(look, view);
  const std::string& said = saved.empty() ? s.trouble : saved;
  if (said.empty()) {
    const float line = high(t, Role::Body);
    return void(say(t, cut_bottom(yard, line, t.mm(0.8F)), next, Role::Body, {.quiet = true}));
  }
  Rect at = cut_bottom(yard, std::min(notice_height(t, said, yard.w), yard.h * 0.5F), t.mm(1));
  notice(t, at, said, saved.empty() ? Mark::Warning : Mark::Check,
         saved.empty() ? Surface::Warning : Surface::Good);
}

struct Tool {
  const char* label;
  Icon icon;
  WalkPanel panel;
};
constexpr Tool kTools[] = {
    {to_translate("Menu"), Icon::Menu, WalkPanel::Menu},
    {to_translate("Skip"), Icon::Skip, WalkPanel::PassOver},
    {to_translate("Flying"), Icon::Flying, WalkPanel::Flying},
    {to_translate("Problem"), Icon::Problem, WalkPanel::Mishap},
    {to_translate("Dose"), Icon::Acid, WalkPanel::Dose},
    {to_translate("Undo last"), Icon::Undo, WalkPanel::StrikeLast},
    {to_translate("Pause"), Icon::Pause, WalkPanel::Close},
};

// Where something is wrong the menu leads to it, and is seen to.
PicturedLook look_of_tool(const Tool& tool, const Look& look) {
  const bool alarm = tool.panel == WalkPanel::Menu && !look.troubles.empty();
  return {.surface = alarm ? Surface::Warning : Surface::Button};
}

// While a colony of the keeper's own choice is asked about, the way back stands where the menu was.
bool draw_way_back(Touch& t, const Rect& rect, UnderWay& view) {
  if (!view.chosen) return false;
  if (pictured_button(t, rect, tr("In order"), Icon::Walk, {.surface = Surface::Chosen}))
    view.chosen.reset();
  return true;
}

void draw_tools(Touch& t, const Rect& rect, const Look& look, WalkView& view) {
  const std::size_t cols = rect.h > t.least_h() * 1.5F ? 4 : 8;
  const std::vector<Rect> cells = grid(rect, cols, 8 / cols, t.gap());
  const std::size_t first = draw_way_back(t, cells[0], view.under_way) ? 1 : 0;
  for (std::size_t i = first; i < std::size(kTools); ++i)
    if (pictured_button(t, cells[i], translated(kTools[i].label), kTools[i].icon,
                        look_of_tool(kTools[i], look)))
      view.under_way.panel = kTools[i].panel;
  if (pictured_button(t, cells[7], tr("First aid"), Icon::Aid, {.surface = Surface::Alarm}))
    view.first_aid = true;
}

void wake_each_second(Touch& t, const Look& look, const engine::Walk& walk) {
  if (engine::dwells(walk, look.now).empty() && engine::seals(walk, look.now).empty()) return;
  t.wake_in(1000 - t.frame().now_ms % 1000);
}

// The step after this one, in words and as a place on the picture.
struct NextStep {
  std::string words;
  std::optional<engine::ColonyId> colony;
};
NextStep next_step(const Touch& t, const Look& look, const engine::Walk& walk, const Step& now,
                   float width) {
  const auto steps = engine::steps_after(walk, look.now, 3, std::nullopt, planned(look, walk));
  NextStep next;
  if (steps.empty()) return next;
  next.words = tr("Next: {}", short_step(look, walk, steps[0]));
  if (wide(t, next.words, Role::Body) > width)
    next.words = tr("Next: {}", short_step(look, walk, steps[0], true));
  for (const engine::Advice& a : steps)
    if (!next.colony && a.colony != now.advice.colony) next.colony = a.colony;
  return next;
}

// What the act writes: one entry, or two in one.
Ask carried_out(UnderWay& view, const Step& step) {
  view.chosen.reset();
  if (std::holds_alternative<engine::VaporizerSet>(*step.body)) view.dose.reset();
  if (std::holds_alternative<engine::BatteryChanged>(*step.body)) view.battery_kept.reset();
  if (step.before) return Entries{{*step.before, *step.body}};
  return *step.body;
}

}  // namespace

Ask walk_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view) {
  UnderWay& under_way = view.under_way;
  NowPlan plan = now_plan(t, room, walk.cloths.size());
  const Step step = step_now(look, walk, under_way);
  const auto before = tapped_state(view);
  draw_strip(t, plan.strip, look, walk);
  const Ask chosen = draw_choices(t, plan.now, look, walk, under_way, step);
  const NextStep next = next_step(t, look, walk, step, plan.yard.w);
  draw_word(t, plan.yard, look, under_way, step, next.words);
  draw_yard(t, plan.yard, look, walk, under_way, step.advice.colony, next.colony);
  draw_now(t, plan.now, look, walk, under_way, step);
  draw_cloths(t, plan.cloths, look, walk, under_way);
  draw_tools(t, plan.tools, look, view);
  wake_each_second(t, look, walk);
  const bool acted = draw_act(t, plan.action, look, walk, step);
  if (!std::holds_alternative<std::monostate>(chosen)) return chosen;
  if (acted || tapped_state(view) != before) under_way.noted_since.reset();
  if (!acted || !step.body) return {};
  return carried_out(under_way, step);
}

}  // namespace ui
