// The bar of screens and the current one beside it (upright: above it).
#include "ui/screens/shell/all_screens.h"

#include <array>

#include "ui/screens/base/layout.h"
#include "ui/screens/counts/counts_screen.h"
#include "ui/screens/courses/courses_screen.h"
#include "ui/screens/kit/kit_screen.h"
#include "ui/screens/register/register_screen.h"
#include "ui/screens/setup/setup_screen.h"
#include "ui/screens/today/today_screen.h"
#include "ui/screens/walk/walk_screen.h"
#include "ui/screens/yards/yards_screen.h"

namespace ui {

namespace {

Ask current(Touch& t, const Rect& room, const Look& look, Views& views) {
  switch (views.screen) {
    case ScreenName::Today:
      return today_screen(t, room, look, views.today);
    case ScreenName::Yards:
      return yards_screen(t, room, look, views.yards);
    case ScreenName::Walk:
      return walk_screen(t, room, look, views.walk);
    case ScreenName::Counts:
      return counts_screen(t, room, look, views.counts);
    case ScreenName::Courses:
      return courses_screen(t, room, look, views.courses);
    case ScreenName::Kit:
      return kit_screen(t, room, look, views.kit);
    case ScreenName::Register:
      return register_screen(t, room, look, views.book);
    case ScreenName::Setup:
      return setup_screen(t, room, look, views.setup);
  }
  return {};
}

const char* name(ScreenName screen) {
  constexpr std::array kNames = {"Today",   "Yards", "Walk",     "Counts",
                                 "Courses", "Kit",   "Register", "Setup"};
  return kNames[static_cast<std::size_t>(screen)];
}

// Nobody plans a season in a respirator: during a walk the bar leaves its room to the walk.
std::vector<ScreenName> in_the_bar(bool walking) {
  std::vector<ScreenName> list;
  for (int i = 0; i <= static_cast<int>(ScreenName::Setup); ++i)
    if (const auto s = static_cast<ScreenName>(i); !walking || s != ScreenName::Courses)
      list.push_back(s);
  return list;
}

Rect cut_bar(Touch& t, Rect& room, std::span<const std::string> names) {
  if (!t.portrait()) return cut_left(room, nav_width(t, names, room.h), t.gap());
  return cut_bottom(room, nav_height(t, names, room.w), t.gap());
}

void say_trouble(Touch& t, Rect& room, const std::string& line) {
  if (line.empty()) return;
  const float high = text_height(t, line, room.w - t.mm(20), Size::Body) + t.mm(5);
  Rect strip = panel(t, cut_top(room, high, t.gap()), Surface::Alarm);
  const Rect box = cut_left(strip, t.mm(9), t.mm(2));
  draw_mark(t.draw(), Mark::Warning, box, t.theme()[Surface::Alarm].ink);
  text(t, strip, line);
}

}  // namespace

Ask all_screens(Touch& t, const Look& look, Views& views) {
  Rect room = inset(t.screen(), t.gap());
  const bool walking = engine::walk_under_way(look.farm, look.device) != nullptr;
  const auto shown = in_the_bar(walking);
  std::vector<std::string> names;
  int current_at = -1;
  for (const ScreenName screen : shown) {
    if (screen == views.screen) current_at = static_cast<int>(names.size());
    names.emplace_back(screen == ScreenName::Walk && walking ? "Walk: on" : name(screen));
  }
  const Rect bar = cut_bar(t, room, names);
  const auto tapped = nav_bar(t, bar, names, current_at);
  say_trouble(t, room, look.journal_line);
  Ask asked = current(t, room, look, views);
  // A tap on the current screen's own name leads back to its first page.
  if (tapped) return ToScreen{shown[static_cast<std::size_t>(*tapped)], true};
  return asked;
}

}  // namespace ui
