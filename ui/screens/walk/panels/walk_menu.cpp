#include "ui/screens/walk/panels/walk_menu.h"

#include "ui/screens/base/pictured.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {

namespace {

struct Way {
  const char* label;
  Icon icon;
  ScreenName screen;
};
constexpr Way kWays[] = {
    {"Today", Icon::Today, ScreenName::Today},          {"Yards", Icon::Yards, ScreenName::Yards},
    {"Counts", Icon::Counts, ScreenName::Counts},       {"Kit", Icon::Kit, ScreenName::Kit},
    {"Register", Icon::Register, ScreenName::Register}, {"Setup", Icon::Setup, ScreenName::Setup}};

struct Page {
  const char* label;
  Icon icon;
  WalkPanel panel;
};
constexpr Page kPages[] = {{"Map", Icon::Walk, WalkPanel::Map},
                           {"Plan", Icon::Plan, WalkPanel::Plan},
                           {"Cautions", Icon::Problem, WalkPanel::Cautions}};

// What is said aloud, off with one tap.
Ask sound_button(Touch& t, const Rect& rect, const Look& look) {
  const bool on = look.farm.setup.spoken.value_or(true);
  if (!pictured_button(t, rect, on ? "Speech off" : "Speech on", on ? Icon::Mute : Icon::Sound))
    return {};
  engine::SetupChanged change;
  change.spoken = !on;
  return engine::Body{change};
}

}  // namespace

Ask walk_menu(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, "Menu; the clocks keep running");
  const DialogButton back[] = {{"Back"}};
  if (walk_footer(t, page.footer, view, back)) view.under_way.panel = WalkPanel::None;
  const std::size_t cols = t.portrait() ? 2 : 4;
  Rect area = page.room;
  area.h = std::min(area.h, t.mm(28) * static_cast<float>(12 / cols));
  const std::vector<Rect> cells = grid(area, cols, (11 + cols - 1) / cols, t.gap());
  std::size_t at = 0;
  for (const Page& p : kPages)
    if (pictured_button(t, cells[at++], p.label, p.icon)) view.under_way.panel = p.panel;
  Ask asked = sound_button(t, cells[at++], look);
  for (const Way& w : kWays)
    if (pictured_button(t, cells[at++], w.label, w.icon)) {
      view.under_way.panel = WalkPanel::None;
      asked = GoTo{ToScreen{w.screen, true}};
    }
  if (!look.troubles.empty() && pictured_button(t, cells[at], "What is wrong", Icon::Problem,
                                                {.surface = Surface::Warning})) {
    view.under_way.panel = WalkPanel::None;
    asked = GoTo{ToScreen{ScreenName::Alarms, true}};
  }
  return asked;
}

}  // namespace ui
