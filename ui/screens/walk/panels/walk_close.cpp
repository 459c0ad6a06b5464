// Pausing the walk, and ending it early.
#include "ui/screens/walk/panels/walk_close.h"

#include <algorithm>

#include "engine/language/tr.h"
#include "engine/words/words.h"
#include "ui/screens/base/roles.h"
#include "ui/screens/walk/panels/walk_shut.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::tr_many;
using engine::translated;
namespace {

std::string names_in(const Look& look, const engine::Walk& walk, engine::Phase phase) {
  std::string names;
  for (const engine::Stop& s : walk.stops)
    if (s.phase == phase) names += (names.empty() ? "" : ", ") + called(look, s.colony);
  return names;
}

void draw_left_over(Touch& t, Rect& room, const Look& look, const engine::Walk& walk) {
  const auto to_do = static_cast<std::size_t>(
      std::count_if(walk.stops.begin(), walk.stops.end(),
                    [](const engine::Stop& s) { return s.phase == engine::Phase::ToDo; }));
  const std::string covered = names_in(look, walk, engine::Phase::Covered);
  const std::string vapor = names_in(look, walk, engine::Phase::UnderVapor);
  if (!vapor.empty())
    notice(t, room, tr("Under vapor: {}. Lift the vaporizer first.", vapor), Mark::Vapor,
           Surface::Active);
  if (!covered.empty())
    notice(t, room, tr("Cloths still lie on {}. Those bees need air.", covered), Mark::Warning,
           Surface::Warning);
  if (to_do > 0)
    notice(t, room,
           tr("If you close now: {} to the come-back list.",
              tr_many("{} colony goes", "{} colonies go", to_do)),
           Mark::Return, Surface::Panel);
}

constexpr engine::LossWhy kReasons[] = {engine::LossWhy::Rain,       engine::LossWhy::Wind,
                                        engine::LossWhy::TooCold,    engine::LossWhy::Dark,
                                        engine::LossWhy::BeesFlying, engine::LossWhy::CalledAway};

// Why it ends early; tapped once more, the reason is taken back.
void draw_reasons(Touch& t, Rect& room, UnderWay& view) {
  const std::size_t cols = t.portrait() ? 2 : 3;
  const std::size_t lines = std::size(kReasons) / cols;
  const float h = (t.least_h() + t.mm(0.6F)) * static_cast<float>(lines) +
                  t.gap() * static_cast<float>(lines - 1);
  const Rect cells = cut_bottom(room, h, t.gap());
  say(t, cut_bottom(room, high(t, Role::Body), t.mm(1)), tr("Why does it end here?"), Role::Body,
      {.quiet = true});
  std::vector<Choice> list;
  for (const engine::LossWhy why : kReasons)
    list.push_back(
        {.label = capital_word(translated(engine::words(why))), .chosen = view.stop_why == why});
  const auto tapped = choices(t, cells, list, cols, 20);
  if (!tapped) return;
  const engine::LossWhy why = kReasons[*tapped];
  view.stop_why = view.stop_why == why ? std::nullopt : std::optional(why);
}

Ask close_button(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view) {
  const engine::WalkClosed closed{walk.id};
  const engine::Refusal refusal = why_not(look, closed);
  const bool may = refusal == engine::Refusal::None;
  const bool hit = engine::complete(walk)
                       ? button(t, rect, tr("Close the walk"), {.enabled = may, .large = true})
                       : hold_button(t, rect, tr("Close the walk"),
                                     {.enabled = may,
                                      .surface = Surface::Warning,
                                      .second = may ? "" : translated(engine::sentence(refusal)),
                                      .large = true});
  if (!hit) return {};
  view.under_way.chosen.reset();
  if (!any_shut(walk)) return close_walk(walk, view);
  view.under_way.panel = WalkPanel::StillShut;
  return {};
}

}  // namespace

Ask walk_close(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Pause or close the walk"));
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back)) {
    view.under_way.panel = WalkPanel::None;
    view.under_way.stop_why.reset();
  }
  const Rect both = cut_bottom(page.room, t.least_h() * 2, t.gap());
  if (!engine::complete(walk)) draw_reasons(t, page.room, view.under_way);
  draw_left_over(t, page.room, look, walk);
  const std::vector<Rect> cells = columns(both, 2, t.gap());
  const bool paused = walk.paused.has_value();
  if (button(t, cells[0], paused ? tr("Resume the walk") : tr("Pause the walk"),
             {.second = paused ? "" : tr("the clocks keep running"), .large = true})) {
    view.under_way.panel = WalkPanel::None;
    return paused ? engine::Body{engine::WalkResumed{walk.id}}
                  : engine::Body{engine::WalkPaused{walk.id}};
  }
  return close_button(t, cells[1], look, walk, view);
}

}  // namespace ui
