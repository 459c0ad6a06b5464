#include "ui/screens/walk/panels/walk_menu.h"

#include "engine/language/tr.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {

using engine::to_translate;
using engine::tr;
using engine::translated;

namespace {

struct Way {
  const char* label;
  Icon icon;
  ScreenName screen;
};
constexpr Way kWays[] = {{to_translate("Today"), Icon::Today, ScreenName::Today},
                         {to_translate("Yards"), Icon::Yards, ScreenName::Yards},
                         {to_translate("Counts"), Icon::Counts, ScreenName::Counts},
                         {to_translate("Kit"), Icon::Kit, ScreenName::Kit},
                         {to_translate("Register"), Icon::Register, ScreenName::Register},
                         {to_translate("Setup"), Icon::Setup, ScreenName::Setup}};

struct Page {
  const char* label;
  Icon icon;
  WalkPanel panel;
};
constexpr Page kPages[] = {{to_translate("Map"), Icon::Walk, WalkPanel::Map},
                           {to_translate("Plan"), Icon::Plan, WalkPanel::Plan},
                           {to_translate("Cautions"), Icon::Problem, WalkPanel::Cautions}};

// What is said aloud, off with one tap.
Ask sound_button(Touch& t, const Rect& rect, const Look& look) {
  const bool on = look.farm.setup.spoken.value_or(true);
  if (!pictured_button(t, rect, on ? tr("Speech off") : tr("Speech on"),
                       on ? Icon::Mute : Icon::Sound))
    return {};
  engine::SetupChanged change;
  change.spoken = !on;
  return engine::Body{change};
}

}  // namespace

Ask walk_menu(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Menu; the clocks keep running"));
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back)) view.under_way.panel = WalkPanel::None;
  const std::size_t cols = t.portrait() ? 2 : 4;
  Rect area = page.room;
  area.h = std::min(area.h, t.mm(28) * static_cast<float>(12 / cols));
  const std::vector<Rect> cells = grid(area, cols, (11 + cols - 1) / cols, t.gap());
  std::size_t at = 0;
  for (const Page& p : kPages)
    if (pictured_button(t, cells[at++], translated(p.label), p.icon))
      view.under_way.panel = p.panel;
  Ask asked = sound_button(t, cells[at++], look);
  for (const Way& w : kWays)
    if (pictured_button(t, cells[at++], translated(w.label), w.icon)) {
      view.under_way.panel = WalkPanel::None;
      asked = GoTo{ToScreen{w.screen, true}};
    }
  if (!look.troubles.empty() && pictured_button(t, cells[at], tr("What is wrong"), Icon::Problem,
                                                {.surface = Surface::Warning})) {
    view.under_way.panel = WalkPanel::None;
    asked = GoTo{ToScreen{ScreenName::Alarms, true}};
  }
  return asked;
}

}  // namespace ui
