// The bar of screens and the current one beside it (upright: above it).
#include "ui/screens/shell/all_screens.h"

#include <array>

#include "ui/screens/base/layout.h"
#include "ui/screens/counts/counts_screen.h"
#include "ui/screens/courses/courses_screen.h"
#include "ui/screens/kit/kit_screen.h"
#include "ui/screens/register/register_screen.h"
#include "ui/screens/setup/setup_screen.h"
#include "ui/screens/shell/alarms.h"
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
    case ScreenName::Alarms:
      return alarms_page(t, room, look, views.alarms);
  }
  return {};
}

const char* name(ScreenName screen) {
  constexpr std::array kNames = {"Today",   "Yards", "Walk",     "Counts",
                                 "Courses", "Kit",   "Register", "Setup"};
  return kNames.at(static_cast<std::size_t>(screen));
}

// Nobody plans a season in a respirator: during a walk the bar leaves its room to the walk. Nor
// does anybody count mites: where something is wrong, its cell takes that place, so that no page
// loses room to it.
bool in_the_bar(ScreenName screen, bool walking, bool alarm) {
  if (!walking) return true;
  return screen != ScreenName::Courses && !(alarm && screen == ScreenName::Counts);
}

struct Bar {
  std::vector<ScreenName> screens;
  std::vector<std::string> names;
  int current = -1;
  std::optional<Surface> alarm;  // of the last cell
};

void add(Bar& bar, ScreenName screen, std::string name, const Views& views) {
  if (screen == views.screen) bar.current = static_cast<int>(bar.names.size());
  bar.screens.push_back(screen);
  bar.names.push_back(std::move(name));
}

Bar bar_of(const Look& look, const Views& views) {
  Bar bar;
  const bool walking = engine::walk_under_way(look.farm, look.device) != nullptr;
  const bool alarm = !look.troubles.empty();
  for (int i = 0; i <= static_cast<int>(ScreenName::Setup); ++i) {
    const auto screen = static_cast<ScreenName>(i);
    if (!in_the_bar(screen, walking, alarm)) continue;
    add(bar, screen, screen == ScreenName::Walk && walking ? "Walk: on" : name(screen), views);
  }
  if (!alarm) return bar;
  add(bar, ScreenName::Alarms, alarm_label(look.troubles), views);
  bar.alarm = alarm_surface(look.troubles);
  return bar;
}

Rect cut_bar(Touch& t, Rect& room, std::span<const std::string> names) {
  if (!t.portrait()) return cut_left(room, nav_width(t, names, room.h), t.gap());
  return cut_bottom(room, nav_height(t, names, room.w), t.gap());
}

}  // namespace

Ask all_screens(Touch& t, const Look& look, Views& views) {
  Rect room = inset(t.screen(), t.gap());
  const Bar bar = bar_of(look, views);
  const Rect rect = cut_bar(t, room, bar.names);
  const auto tapped = nav_bar(t, rect, bar.names, bar.current, bar.alarm);
  Ask asked = current(t, room, look, views);
  // A tap on the current screen's own name leads back to its first page.
  if (tapped) return ToScreen{bar.screens[static_cast<std::size_t>(*tapped)], true};
  return asked;
}

}  // namespace ui
