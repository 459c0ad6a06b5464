#include "ui/screens/walk/now/walk_choices.h"

#include "engine/language/tr.h"

namespace ui {
namespace {

using engine::Do;
using engine::tr;

// The battery may wait, or has told by itself that it is empty.
Ask battery_choices(Touch& t, Rect& room, UnderWay& view, const Step& s) {
  const std::vector<Rect> cells = columns(cut_bottom(room, t.least_h(), t.mm(1)), 2, t.gap());
  if (button(t, cells[0], tr("Not now"))) view.battery_kept = s.battery.battery;
  if (!button(t, cells[1], tr("It was empty"))) return {};
  return engine::Body{engine::BatteryChanged{*s.advice.vaporizer, *s.advice.battery, true}};
}

// Under the clock, or at its right where it is wide and low, so that the time keeps its size.
Rect place_of_one(const Touch& t, Rect& room) {
  if (!t.portrait()) return cut_bottom(room, t.least_h(), t.mm(1));
  return cut_right(room, room.w * 0.4F, t.gap());
}

// Vapor that stopped: instead of going on, the vaporizer is lifted and loaded anew.
Ask stopped_choices(Touch& t, Rect& room, const engine::Walk& walk, UnderWay& view, const Step& s) {
  const Rect cell = place_of_one(t, room);
  const std::string then = tr("register: two, the first not enough");
  const ButtonLook look{.second = then};
  if (!button(t, cell, tr("Lift it, do it again"), look)) return {};
  view.chosen = s.advice.colony;
  const engine::Body lifted = engine::ColonyUncovered{walk.id, s.advice.colony};
  return s.before ? Ask(Entries{{*s.before, lifted}}) : Ask(lifted);
}

// Bees were seen flying here: treated all the same by holding the act, or later.
Ask flying_choices(Touch& t, Rect& room, const Look& look, const engine::Walk& walk, UnderWay& view,
                   const Step& s) {
  const Rect cell = place_of_one(t, room);
  if (!button(t, cell, tr("Come back later"))) return {};
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
