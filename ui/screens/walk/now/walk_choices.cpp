#include "ui/screens/walk/now/walk_choices.h"

namespace ui {
namespace {

using engine::Do;

// The battery may wait, or has told by itself that it is empty.
Ask battery_choices(Touch& t, Rect& room, UnderWay& view, const Step& s) {
  const std::vector<Rect> cells = columns(cut_bottom(room, t.least_h(), t.mm(1)), 2, t.gap());
  if (button(t, cells[0], "Not now")) view.battery_kept = s.battery.battery;
  if (!button(t, cells[1], "It was empty")) return {};
  return engine::Body{engine::BatteryChanged{*s.advice.vaporizer, *s.advice.battery, true}};
}

// Vapor that stopped: instead of going on, the vaporizer is lifted and loaded anew.
Ask stopped_choices(Touch& t, Rect& room, const engine::Walk& walk, UnderWay& view, const Step& s) {
  const Rect cell = cut_bottom(room, t.least_h(), t.mm(1));
  const ButtonLook look{.second = "register: two, the first not enough"};
  if (!button(t, cell, "Lift it, do it again", look)) return {};
  view.chosen = s.advice.colony;
  const engine::Body lifted = engine::ColonyUncovered{walk.id, s.advice.colony};
  return s.before ? Ask(Entries{{*s.before, lifted}}) : Ask(lifted);
}

// Bees were seen flying here: treated all the same by holding the act, or later.
Ask flying_choices(Touch& t, Rect& room, const Look& look, const engine::Walk& walk, UnderWay& view,
                   const Step& s) {
  const Rect cell = cut_bottom(room, t.least_h(), t.mm(1));
  if (!button(t, cell, "Come back later")) return {};
  view.noted_since = look.farm.log.size();
  view.chosen.reset();
  return engine::Body{
      engine::ColonyPassedOver{walk.id, s.advice.colony, engine::PassReason::BeesFlying, ""}};
}

}  // namespace

Ask draw_choices(Touch& t, Rect& room, const Look& look, const engine::Walk& walk, UnderWay& view,
                 const Step& s) {
  if (s.advice.what == Do::ChangeBattery) return battery_choices(t, room, view, s);
  if (s.advice.what == Do::GoOn) return stopped_choices(t, room, walk, view, s);
  if (s.advice.what == Do::Set && noted_flying(walk, s.advice.colony))
    return flying_choices(t, room, look, walk, view, s);
  return {};
}

}  // namespace ui
