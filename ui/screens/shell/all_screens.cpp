// The bar of screens and the current one beside it (upright: above it).
#include "ui/screens/shell/all_screens.h"

#include <array>

#include "ui/screens/base/layout.h"
#include "ui/screens/base/pictured.h"
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

Icon icon_of(ScreenName screen) {
  constexpr std::array kIcons = {Icon::Today,   Icon::Yards, Icon::Walk,     Icon::Counts,
                                 Icon::Courses, Icon::Kit,   Icon::Register, Icon::Setup};
  return kIcons[static_cast<std::size_t>(screen)];
}

// A walk begins at its yard. While one is under way the way back to it stands where the season is
// planned otherwise: nobody does that in a respirator. Where something is wrong, its cell takes the
// place of Courses, in a walk of Counts, and its page leads there: eight cells would be too low for
// a glove.
std::vector<ScreenName> in_the_bar(bool walking, bool alarm) {
  using enum ScreenName;
  const ScreenName third = walking && alarm ? Alarms : Counts;
  const ScreenName fourth = walking ? Walk : alarm ? Alarms : Courses;
  return {Today, Yards, third, fourth, Kit, Register, Setup};
}

// A column at the left; upright two rows at the foot, where a column would take a fifth of the
// width.
std::vector<Rect> cut_bar(const Touch& t, Rect& room, std::size_t n) {
  if (!t.portrait()) return rows(cut_left(room, t.least_w(), t.gap()), n, t.gap());
  const float two = 2 * t.least_h() + t.gap();
  return grid(cut_bottom(room, two, t.gap()), (n + 1) / 2, 2, t.gap());
}

struct Cell {
  std::string label;
  Icon icon = Icon::None;
  Surface surface = Surface::Bar;
};

Cell cell_of(const Look& look, ScreenName screen) {
  if (screen == ScreenName::Alarms)
    return {alarm_label(look.troubles), Icon::Problem, alarm_surface(look.troubles)};
  if (screen == ScreenName::Walk) return {"Walk: on", icon_of(screen), Surface::Action};
  return {name(screen), icon_of(screen), Surface::Bar};
}

std::optional<ScreenName> draw_bar(Touch& t, Rect& room, const Look& look, bool walking,
                                   ScreenName current) {
  const std::vector<ScreenName> shown = in_the_bar(walking, !look.troubles.empty());
  const std::vector<Rect> cells = cut_bar(t, room, shown.size());
  std::optional<ScreenName> tapped;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const bool here = shown[i] == current;
    const Cell cell = cell_of(look, shown[i]);
    const PicturedLook face{.surface = here ? Surface::Chosen : cell.surface, .chosen = here};
    if (pictured_button(t, cells[i], cell.label, cell.icon, face)) tapped = shown[i];
  }
  return tapped;
}

}  // namespace

Ask all_screens(Touch& t, const Look& look, Views& views) {
  Rect room = inset(t.screen(), t.gap());
  const bool walking = engine::walk_under_way(look.farm, look.device) != nullptr;
  std::optional<ScreenName> tapped;
  if (views.screen != ScreenName::Walk || !fills_the_screen(look, views.walk))
    tapped = draw_bar(t, room, look, walking, views.screen);
  Ask asked = current(t, room, look, views);
  // A tap on the current screen's own name leads back to its first page.
  if (tapped) return ToScreen{*tapped, true};
  return asked;
}

}  // namespace ui
