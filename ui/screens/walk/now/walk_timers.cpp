#include "ui/screens/walk/now/walk_timers.h"

#include <algorithm>
#include <span>

#include "engine/language/tr.h"
#include "engine/walk/timers.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/base/drawing.h"
#include "ui/screens/base/roles.h"
#include "ui/screens/walk/now/walk_alarm.h"
#include "ui/screens/walk/now/walk_yard.h"

namespace ui {

using engine::tr;
using engine::tr_many;
namespace {

using engine::Do;

constexpr std::chrono::seconds kDwellGrace{10};  // due, then over and flashing: own choice

void choose_or_let_go(UnderWay& view, engine::ColonyId colony) {
  if (view.chosen == colony)
    view.chosen.reset();
  else
    view.chosen = colony;
}

// ---- one large clock ----

struct BigClock {
  std::string title, number, aside, line;
  float part = -1;  // of the bar that is full; negative: there is no bar
  Surface surface = Surface::Panel;
};

float part_gone(const engine::Timer& timer) {
  if (timer.goal <= engine::Ms{0}) return 1;
  return static_cast<float>(timer.elapsed.count()) / static_cast<float>(timer.goal.count());
}

std::string time_of(const engine::Timer& timer) {
  if (!timer.due()) return to_go(timer.left());
  return clock_text(std::chrono::floor<std::chrono::seconds>(timer.left()));
}

Surface dwell_surface(Touch& t, const engine::Timer& dwell) {
  if (!dwell.due() && dwell.sure) return Surface::Active;
  if (-dwell.left() <= kDwellGrace && dwell.sure) return Surface::Warning;
  return flash_half(t) ? Surface::Alarm : Surface::Flash;
}

// Vapor that stopped: what is still missing, and it does not get less by waiting.
BigClock stopped_clock(const Look& look, const engine::Walk& walk, const Step& s,
                       const engine::Timer& dwell) {
  return {.title = tr("No vapor in {}", called(look, dwell.colony)),
          .number = time_of(dwell),
          .aside = tr("missing"),
          .line = under_line(look, walk, s),
          .part = part_gone(dwell),
          .surface = Surface::Warning};
}

BigClock dwell_clock(Touch& t, const Look& look, const engine::Walk& walk, const Step& s,
                     const engine::Timer& dwell) {
  if (dwell.resting && !dwell.due()) return stopped_clock(look, walk, s, dwell);
  BigClock c{.title = tr("Vapor in {}", called(look, dwell.colony)), .number = time_of(dwell)};
  c.aside = !dwell.sure ? tr("check") : dwell.due() ? tr("DUE NOW") : tr("to go");
  c.line = dwell.due() ? under_line(look, walk, s)
                       : engine::words(dwell_forecast(look, walk, dwell.colony));
  c.part = part_gone(dwell);
  c.surface = dwell_surface(t, dwell);
  return c;
}

// A mass as the number role can say it: digits, point, unit.
BigClock dose_clock(const Look& look, const engine::Walk& walk, const Step& s) {
  BigClock c{.title = called(look, s.advice.colony), .line = under_line(look, walk, s)};
  const bool waits = s.advice.hold > engine::Ms{0};
  c.number = waits ? to_go(s.advice.hold) : shown(look, s.dose);
  c.aside = waits ? tr("wait") : s.advice.what == Do::SetAgain ? tr("once more") : tr("to load");
  return c;
}

BigClock seal_clock(const Look& look, const engine::Walk& walk, const Step& s) {
  BigClock c{.title = tr("{} is closed", called(look, s.advice.colony))};
  c.line = under_line(look, walk, s);
  c.surface = Surface::Waiting;
  if (!s.advice.timer) return c;
  c.number = time_of(*s.advice.timer);
  c.aside = s.advice.timer->due() ? tr("over") : tr("to go");
  c.part = part_gone(*s.advice.timer);
  return c;
}

BigClock clock_of(Touch& t, const Look& look, const engine::Walk& walk, const Step& s) {
  const auto dwells = engine::dwells(walk, look.now);
  if (!dwells.empty()) return dwell_clock(t, look, walk, s, dwells.front());
  if (s.advice.what == Do::Set && noted_flying(walk, s.advice.colony))
    return {.title = tr("Bees fly at {}", called(look, s.advice.colony))};
  if (s.advice.what == Do::Set || s.advice.what == Do::SetAgain) return dose_clock(look, walk, s);
  if (s.advice.what == Do::WaitForSeal || s.advice.what == Do::Uncover)
    return seal_clock(look, walk, s);
  if (s.advice.what == Do::ChangeBattery) return {.title = tr("Battery")};
  return {.title = tr("No vapor now"), .line = under_line(look, walk, s)};
}

// The largest role in which the digits stand in the room.
Role number_role(const Touch& t, std::string_view number, const Rect& room) {
  const bool high_enough = tight_high(t, Role::Number) <= room.h + 1;
  if (high_enough && wide(t, number, Role::Number) <= room.w) return Role::Number;
  return role_for(t, number, room.w, Role::Headline, Role::Title);
}

// Title in one line of its own, as large as it can be.
void draw_title(Touch& t, Rect& room, const std::string& title) {
  const Role role = role_for(t, title, room.w, Role::Title, Role::Body);
  say(t, cut_top(room, high(t, role)), title, role);
}

// What the number is, the bar and the supporting words, from the top on.
void draw_beside(Touch& t, Rect room, const BigClock& c) {
  if (!c.aside.empty()) {
    const Role role = role_for(t, c.aside, room.w, Role::Title, Role::Body);
    if (wide(t, c.aside, role) > room.w) return;
    say(t, cut_top(room, high(t, role), t.mm(0.4F)), c.aside, role);
  }
  if (c.part >= 0 && room.h >= t.mm(3))
    progress(t, cut_top(room, t.mm(3), t.mm(0.6F)), c.part, c.surface);
  // The whole line, or what stands before its first comma, such as "usually 1:30".
  for (const std::string& line : {c.line, c.line.substr(0, c.line.find(','))})
    for (const Size size : {Size::Body, Size::Small})
      if (!line.empty() && text_height(t, line, room.w, size) <= room.h)
        return void(text(t, room, line, {.size = size, .place = Place::Top, .quiet = true}));
}

// The letters of a dose reach under the line on which the digits stand.
bool has_letters(const std::string& number) { return number.find('g') != std::string::npos; }

// The title stands beside the number where the room is too low for both, so that the time left
// keeps its size; above it where the room is too narrow as well.
bool title_beside(const Touch& t, const BigClock& c, const Rect& room) {
  if (c.number.empty()) return false;
  const float left = room.w - wide(t, c.number, Role::Number) - step(t);
  if (wide(t, c.title, Role::Body) > left) return false;
  return has_letters(c.number) || room.h < high(t, Role::Title) + tight_high(t, Role::Number);
}

void draw_big(Touch& t, const Rect& rect, const BigClock& c) {
  t.fill(rect, c.surface, t.mm(c.surface == Surface::Panel ? 0.35F : 0.7F));
  Rect room = inset(rect, step(t), t.mm(1));
  const bool beside = title_beside(t, c, room);
  if (!beside) draw_title(t, room, c.title);
  if (c.number.empty()) return draw_beside(t, room, c);
  const Role role = number_role(t, c.number, room);
  Rect left = cut_left(room, wide(t, c.number, role), step(t));
  if (has_letters(c.number)) left.h -= t.mm(4);
  say(t, left, c.number, role, {.tight = true});
  if (beside) draw_title(t, room, c.title);
  draw_beside(t, room, c);
}

// ---- tiles ----

struct TimerTile {
  std::string colony;
  std::string number;  // on the flap: "2"
  std::string label;   // of the target
  engine::Timer timer;
  Surface surface = Surface::Waiting;
  bool chosen = false;
  bool dwell = false;  // vapor: how long it is over counts
  bool calm = false;   // past its goal, but something else comes first: no alarm
};

bool ready(const TimerTile& tile) { return tile.calm && tile.timer.sure && tile.timer.due(); }

std::string time_words(const TimerTile& tile) {
  if (!tile.timer.sure) return tr("check");
  if (!tile.timer.due()) return to_go(tile.timer.left());
  return tile.dwell ? time_of(tile.timer) : tile.calm ? tr("ready") : tr("due");
}

Surface surface_of_tile(const TimerTile& tile, const Hit& hit) {
  if (hit.pressed) return Surface::Pressed;
  if (ready(tile)) return tile.surface;
  return tile.timer.due() || !tile.timer.sure ? Surface::Warning : tile.surface;
}

// The flap (or a wisp) and the colony's name over the time, and the bar where there is room.
void draw_tile_inside(Touch& t, const Rect& rect, const TimerTile& tile, Surface surface) {
  Rect room = inset(rect, t.mm(1.2F), t.mm(1));
  const bool tall = rect.h >= t.mm(19);
  Rect top = cut_top(room, high(t, Role::Body), t.mm(0.4F));
  const Rect flap = inset(cut_left(top, t.mm(6), t.mm(1.4F)), 0, t.mm(0.3F));
  if (tile.dwell)
    draw_wisps({t.draw(), t.theme()[surface].ink, t.mm(0.6F)}, inset(flap, t.mm(0.6F)));
  else
    draw_flap(t, flap, tile.number, Surface::Bar);
  text(t, top, tile.colony, {.size = Size::Body});
  const std::string words = time_words(tile);
  // The time left of vapor is the largest thing on the page, also beside another one.
  const Rect wider = inset(room, -t.mm(0.9F), 0);
  if (tile.dwell && number_role(t, words, wider) == Role::Number) {
    say(t, wider, words, Role::Number, {.align = Align::Center, .tight = true});
    return;
  }
  if (tall) progress(t, cut_bottom(room, t.mm(2.4F), t.mm(0.6F)), part_gone(tile.timer), surface);
  const Role most = tall ? Role::Headline : Role::Title;
  const Role role =
      role_for(t, words, room.w, most, most == Role::Headline ? Role::Title : Role::Body);
  say(t, room, words, role, {.align = Align::Center, .tight = true});
}

bool draw_tile(Touch& t, const Rect& rect, const TimerTile& tile) {
  const Hit hit = t.target(tile.label, rect);
  const Surface surface = surface_of_tile(tile, hit);
  t.fill(rect, surface, t.mm(tile.chosen ? 1.2F : 0.4F));
  draw_tile_inside(t, rect, tile, surface);
  return hit.tapped;
}

// A free cloth: its flap, as it is in the hand.
void draw_free(Touch& t, const Rect& rect, const std::string& number) {
  t.fill(rect, Surface::Panel, t.mm(0.3F));
  Rect room = inset(rect, t.mm(1.2F), t.mm(1));
  const float line = high(t, Role::Body) - t.mm(0.6F);
  Rect flap = cut_left(room, t.mm(6), t.mm(1.4F));
  draw_flap(t, {flap.x, flap.mid_y() - line / 2, flap.w, line}, number, Surface::Bar);
  const Role role = role_for(t, tr("free"), room.w, Role::Title, Role::Body);
  if (wide(t, tr("free"), role) <= room.w) say(t, room, tr("free"), role, {.quiet = true});
}

void draw_rest(Touch& t, const Rect& rect, std::string_view words) {
  t.fill(rect, Surface::Panel, t.mm(0.3F));
  say(t, inset(rect, t.mm(2)), words, Role::Body, {.align = Align::Center, .quiet = true});
}

// As many columns as leave the tiles their rows, as many as there is room for.
std::vector<Rect> cells_for(const Touch& t, const Rect& rect, std::size_t n) {
  const std::size_t lines = std::max<std::size_t>(1, fit_count(rect.h, t.least_h(), t.gap()));
  const std::size_t most = std::max<std::size_t>(1, fit_count(rect.w, t.least_w(), t.gap()));
  const std::size_t cols = std::clamp<std::size_t>((n + lines - 1) / lines, 1, most);
  const std::size_t used = std::clamp<std::size_t>((n + cols - 1) / cols, 1, lines);
  return grid(rect, cols, used, t.gap());
}

TimerTile dwell_tile(const Look& look, const UnderWay& view, const engine::Timer& timer) {
  TimerTile tile{.colony = called(look, timer.colony), .timer = timer};
  tile.label = tr("Vapor in {}", tile.colony);
  tile.surface = Surface::Active;
  tile.dwell = true;
  tile.chosen = view.chosen == timer.colony;
  return tile;
}

TimerTile cloth_tile(const Look& look, const engine::Walk& walk, const UnderWay& view,
                     const engine::ClothPlace& place) {
  TimerTile tile{.colony = called(look, place.seal->colony),
                 .number = cloth_number(look, place.cloth),
                 .timer = *place.seal};
  tile.label = tr("{} on {}", kit_shown(look, place.cloth), tile.colony);
  tile.chosen = view.chosen == place.seal->colony;
  tile.calm = vapor_to_come(walk);
  return tile;
}

// The cloths that have no tile, in one button: how many, and what the first of them is up to.
void draw_hidden(Touch& t, const Rect& rect, std::span<const engine::ClothPlace> hidden,
                 UnderWay& view) {
  std::optional<engine::Timer> first;
  for (const engine::ClothPlace& p : hidden)
    if (p.seal && (!first || p.seal->elapsed > first->elapsed)) first = p.seal;
  std::string second = tr("on the map");
  if (first) second = first->due() ? tr("one is ready") : to_go(first->left());
  const Surface surface = first && first->due() ? Surface::Warning : Surface::Button;
  const std::string more = tr_many("{} more cloth", "{} more cloths", hidden.size());
  if (button(t, rect, more, {.surface = surface, .second = second, .id = "more cloths"}))
    view.panel = WalkPanel::Map;
}

}  // namespace

void draw_now(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
              UnderWay& view, const Step& s) {
  const auto dwells = engine::dwells(walk, look.now);
  if (walk.vaporizers.size() < 2 || dwells.empty())
    return draw_big(t, rect, clock_of(t, look, walk, s));
  const std::vector<Rect> cells = columns(rect, std::min<std::size_t>(dwells.size(), 4), t.gap());
  for (std::size_t i = 0; i < cells.size(); ++i)
    if (draw_tile(t, cells[i], dwell_tile(look, view, dwells[i])))
      choose_or_let_go(view, dwells[i].colony);
}

// A cloth keeps its tile through the whole walk, so that it is always found in the same spot.
void draw_cloths(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 UnderWay& view) {
  if (walk.cloths.empty()) return draw_rest(t, rect, tr("No cloths on this walk"));
  const std::size_t n = walk.cloths.size();
  const std::vector<Rect> cells = cells_for(t, rect, n);
  const std::size_t shown = n <= cells.size() ? n : cells.size() - 1;
  const auto places = engine::cloth_places(walk, look.now);
  for (std::size_t i = 0; i < shown; ++i) {
    if (!places[i].seal)
      draw_free(t, cells[i], cloth_number(look, places[i].cloth));
    else if (draw_tile(t, cells[i], cloth_tile(look, walk, view, places[i])))
      choose_or_let_go(view, places[i].seal->colony);
  }
  if (shown < n) draw_hidden(t, cells[shown], std::span(places).subspan(shown), view);
}

}  // namespace ui
