// The walk under way: what to do now, one button for it, the clocks, and the buttons for what goes
// wrong. Everything keeps its place from step to step, so that a glove finds it without looking.
#include "ui/screens/walk/now/walk_now.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "engine/guide/last_light.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/walk/now/walk_alarm.h"
#include "ui/screens/walk/now/walk_layout.h"
#include "ui/screens/walk/now/walk_timers.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::Do;

namespace {

// The vapor was in, or they were passed over: what the keeper has behind him.
std::size_t had_their_turn(const engine::Walk& walk) {
  return static_cast<std::size_t>(
      std::count_if(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
        return s.phase != engine::Phase::ToDo && s.phase != engine::Phase::UnderVapor;
      }));
}

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

void draw_strip(Touch& t, Rect rect, const Look& look, const engine::Walk& walk) {
  const std::size_t done = had_their_turn(walk);
  const std::string count = fmt::format("{} of {}", done, walk.stops.size());
  text(t, cut_left(rect, text_width(t, count, Size::Large) + 1, t.mm(4)), count,
       {.size = Size::Large});
  const auto due = due_timers(look.farm, look.device, look.now, lead(look, walk));
  if (!due.empty()) return flash_bar(t, rect, alarm_words(look, due));
  const std::string ends = ending_words(look, walk);
  const float wide = std::min(rect.w * 0.75F, text_width(t, ends, Size::Body) + 1);
  text(t, cut_right(rect, wide, t.mm(4)), ends, {.align = Align::Right, .quiet = true});
  progress(
      t, {rect.x, rect.mid_y() - t.mm(2), rect.w, t.mm(4)},
      static_cast<float>(done) / static_cast<float>(std::max<std::size_t>(1, walk.stops.size())),
      Surface::Page);
}

// Not yet time, and nothing else is the matter: no reason for alarm, only for patience.
bool only_early(const Step& s) {
  const bool waits = s.advice.what == Do::WaitForDwell || s.advice.what == Do::WaitForSeal;
  return waits && s.advice.timer && s.advice.timer->sure && s.advice.too_short;
}

// "Saved: A3 seal leaking", once the mishap asked for stands in the farm; until the next tap.
std::string saved_words(const Look& look, const WalkView& view) {
  if (!view.under_way.mishap_since || look.farm.log.size() <= *view.under_way.mishap_since)
    return {};
  const engine::EntryHandle last = engine::last_entry(look.farm, look.device);
  if (last == nullptr) return {};
  const auto* mishap = std::get_if<engine::Mishap>(&last->event.body);
  if (mishap == nullptr) return {};
  const std::string at = mishap->colony ? called(look, *mishap->colony) + " " : "";
  return fmt::format("Saved: {}{}", at, engine::words(mishap->what));
}

// What a tap may change: when one of these is other than before, somebody tapped.
auto tapped_state(const WalkView& view) {
  return std::make_tuple(view.under_way.panel, view.under_way.chosen, view.first_aid);
}

void draw_say(Touch& t, Rect rect, const Look& look, const engine::Walk& walk, const WalkView& view,
              const Step& s) {
  if (const std::string saved = saved_words(look, view); !saved.empty()) {
    notice(t, rect, saved, Mark::Check, Surface::Good);
    return void(text(t, rect, sentence(look, walk, s), {.size = Size::Huge}));
  }
  const bool careful = !s.careful.empty() && !only_early(s);
  const bool warn = careful || !s.trouble.empty() || s.advice.what == Do::ChangeBattery;
  const std::string line = careful              ? s.careful
                           : !s.trouble.empty() ? s.trouble
                                                : under_line(look, walk, s);
  const float high = warn ? notice_height(t, line, rect.w)
                          : std::min(text_height(t, line, rect.w, Size::Body), t.mm(11.5F));
  Rect under = cut_bottom(rect, std::min(high, rect.h * 0.55F), t.mm(1));
  if (warn)
    notice(t, under, line, Mark::Warning, Surface::Warning);
  else
    text(t, under, line, {.place = Place::Top, .quiet = true});
  text(t, rect, sentence(look, walk, s), {.size = Size::Huge});
}

std::string wait_line(const Step& s) {
  if (s.advice.hold > engine::Ms{0})
    return fmt::format("possible now, best in {}", to_go(s.advice.hold));
  const bool waits = s.advice.what == Do::WaitForDwell || s.advice.what == Do::WaitForSeal;
  if (!waits || !s.advice.timer || !s.advice.timer->sure) return action_line(s);
  return fmt::format("long enough now, best in {}", to_go(s.advice.timer->left()));
}

// Another act is another target: a finger that came down on one must not do the next.
std::string action_id(const std::string& label) { return "action: " + label; }

// The action button where a tap is too little: as large, with the reason under it.
bool hold_action(Touch& t, const Rect& rect, const std::string& label, const std::string& line,
                 Surface surface) {
  const Hit hit = t.target(label, rect, true, true, action_id(label));
  t.fill(rect, surface, t.mm(0.8F));
  Rect room = inset(rect, t.mm(4), t.mm(2.5F));
  progress(t, cut_bottom(room, t.mm(4), t.mm(1)), hit.held, surface);
  text(t, cut_bottom(room, room.h * 0.42F), line,
       {.size = Size::Body, .align = Align::Center, .place = Place::Top});
  text(t, room, label, {.size = Size::Huge, .align = Align::Center, .place = Place::Bottom});
  return hit.tapped;
}

bool draw_action(Touch& t, const Rect& rect, const Look& look, const Step& s) {
  const std::string label = action_label(look, s);
  if (!s.body || s.refusal != engine::Refusal::None) {
    action_button(t, rect, label, engine::sentence(s.refusal), false, action_id(label));
    return false;
  }
  if (s.careful.empty()) return action_button(t, rect, label, wait_line(s), true, action_id(label));
  if (only_early(s))
    return hold_action(t, rect, label, s.careful + " Hold if it was done now.", Surface::Waiting);
  return hold_action(t, rect, label, "hold to record it all the same", Surface::Warning);
}

// The battery may wait, or have told by itself that it is empty: then the app learns how far it
// went.
std::optional<engine::Body> draw_battery_choices(Touch& t, const Rect& rect, WalkView& view,
                                                 const Step& s) {
  if (rect.h + 1 < t.least_h()) return std::nullopt;
  const std::vector<Rect> cells = columns(rect, 2, t.gap());
  if (button(t, cells[0], "Not now")) view.under_way.battery_kept = s.battery.battery;
  if (!button(t, cells[1], "It was empty")) return std::nullopt;
  return engine::BatteryChanged{*s.advice.vaporizer, *s.advice.battery, true};
}

// What comes after; when a colony was tapped, the way back to the walk's own order instead.
void draw_next(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
               WalkView& view) {
  if (view.under_way.chosen) {
    if (rect.h + 1 < t.least_h()) return;  // the map has it too
    if (button(t, rect, "Back to the order", {.mark = Mark::Return})) view.under_way.chosen.reset();
    return;
  }
  if (rect.h < line_height(t, Size::Small)) return;
  const auto steps = engine::steps_after(walk, look.now, 3, std::nullopt, planned(look, walk));
  const std::vector<Rect> lines = rows(rect, 3, 0);
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const std::string first = i == 0 ? "Next: " : "then: ";
    std::string line = first + short_step(look, walk, steps[i]);
    if (text_width(t, line, Size::Small) > rect.w)
      line = first + short_step(look, walk, steps[i], true);
    text(t, lines[i], line, {.size = Size::Body, .quiet = i > 0});
  }
}

struct Tool {
  const char* label;
  WalkPanel panel;
};
constexpr Tool kTools[] = {
    {"Map", WalkPanel::Map},
    {"Dose", WalkPanel::Dose},
    {"Pass over", WalkPanel::PassOver},
    {"Bees flying", WalkPanel::Flying},
    {"Mishap", WalkPanel::Mishap},
    {"Strike last", WalkPanel::StrikeLast},
    {"Pause, close", WalkPanel::Close},
};

// A button with a narrow border, so that its one or two words stay large in the least width.
bool tool(Touch& t, const Rect& rect, const char* label, Surface surface = Surface::Button) {
  const Hit hit = t.target(label, rect);
  t.fill(rect, hit.pressed ? Surface::Pressed : surface, t.mm(0.3F));
  text(t, inset(rect, t.mm(0.7F)), label, {.align = Align::Center});
  return hit.tapped;
}

void draw_tools(Touch& t, const Rect& rect, WalkView& view) {
  const std::size_t cols = rect.h > t.least_h() * 1.5F ? 4 : 8;
  const std::vector<Rect> cells = grid(rect, cols, 8 / cols, t.gap());
  for (std::size_t i = 0; i < std::size(kTools); ++i)
    if (tool(t, cells[i], kTools[i].label)) view.under_way.panel = kTools[i].panel;
  if (tool(t, cells[7], "First aid", Surface::Warning)) view.first_aid = true;
}

void wake_each_second(Touch& t, const Look& look, const engine::Walk& walk) {
  if (engine::dwells(walk, look.now).empty() && engine::seals(walk, look.now).empty()) return;
  t.wake_in(1000 - t.frame().now_ms % 1000);
}

}  // namespace

Ask walk_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view) {
  const NowPlan plan = now_plan(t, room, walk.vaporizers.size(), walk.cloths.size());
  const Step step = step_now(look, walk, view.under_way);
  const auto before = tapped_state(view);
  draw_strip(t, plan.strip, look, walk);
  draw_say(t, plan.say, look, walk, view, step);
  draw_dwells(t, plan.dwells, look, walk, view);
  draw_cloths(t, plan.cloths, look, walk, view);
  std::optional<engine::Body> empty;
  if (step.advice.what == Do::ChangeBattery)
    empty = draw_battery_choices(t, plan.next, view, step);
  else
    draw_next(t, plan.next, look, walk, view);
  draw_tools(t, plan.tools, view);
  wake_each_second(t, look, walk);
  const bool acted = draw_action(t, plan.action, look, step);
  if (acted || tapped_state(view) != before) view.under_way.mishap_since.reset();
  if (empty) return *empty;
  if (!acted || !step.body) return {};
  view.under_way.chosen.reset();
  if (std::holds_alternative<engine::VaporizerSet>(*step.body)) view.under_way.dose.reset();
  if (std::holds_alternative<engine::BatteryChanged>(*step.body))
    view.under_way.battery_kept.reset();
  return *step.body;
}

}  // namespace ui
