// What to do when oxalic acid has touched somebody. Short, large, and nothing to choose.
//
// Sources; of the sheet and of OSHA's page excerpts were read for this page, the NIOSH Pocket Guide
// was not opened:
//   eyes       New Jersey Department of Health, Right to Know fact sheet 1445, oxalic acid
//              (January 2010): flush at least 30 minutes, lift the lids, remove contact lenses,
//              medical attention. From memory of the NIOSH Pocket Guide: irrigate immediately.
//   skin       same sheet: remove clothing, wash at once with large amounts of water. From memory
//              of the NIOSH Pocket Guide: water flush promptly.
//   breathing  same sheet: fresh air, breathing support, medical attention. OSHA Chemical Sampling
//              Information: fluid in the lungs may come delayed.
//   swallowed  from memory of the NIOSH Pocket Guide: medical attention immediately. Not to make
//              vomit: from memory of safety sheets, as for every acid.
//   burns      cool under running water: common practice of first aid, from memory; the hot tip of
//              a vaporizer is at about 230 degrees.
// The page defers to the label and to people who know more.
#include "ui/screens/walk/panels/first_aid.h"

#include <algorithm>
#include <array>

#include "engine/farm/queries.h"
#include "engine/language/tr.h"

namespace ui {
namespace {

using engine::to_translate;
using engine::tr;
using engine::translated;

struct Line {
  const char* where;
  const char* what;
};
constexpr std::array<Line, 5> kLines{{
    {to_translate("Eyes"),
     to_translate("Rinse with water at once, at least 30 minutes. Lift the lids, take lenses out. "
                  "See a doctor.")},
    {to_translate("Burns"), to_translate("Cool at once under running water, 20 minutes.")},
    {to_translate("Skin"),
     to_translate("Take off what is splashed. Wash at once with much water.")},
    {to_translate("Breathing"),
     to_translate("Out into fresh air, help with breathing. See a doctor, even when it seems over: "
                  "lungs can fill hours later.")},
    {to_translate("Swallowed"),
     to_translate("Do not make them vomit. Doctor or poison centre at once.")},
}};

float where_width(const Touch& t) {
  float most = 0;
  for (const Line& line : kLines)
    most = std::max(most, text_width(t, translated(line.where), Size::Large));
  return most + t.mm(4);
}

// One size for all lines: the largest in which each fits its box.
Size line_size(const Touch& t, const Rect& box) {
  const float wide = box.w - t.mm(8) - where_width(t);
  for (const Line& line : kLines)
    if (text_height(t, translated(line.what), wide, Size::Large) > box.h - t.mm(2))
      return Size::Body;
  return Size::Large;
}

void draw_line(Touch& t, const Rect& rect, const Line& line, Size size) {
  t.fill(rect, Surface::Panel, t.mm(0.3F));
  Rect room = inset(rect, t.mm(3), t.mm(1));
  text(t, cut_left(room, where_width(t), t.mm(2)), translated(line.where), {.size = Size::Large});
  text(t, room, translated(line.what), {.size = size});
}

std::string call_words(const std::string& number) {
  if (number.empty())
    return tr("Call the emergency number or the poison centre. Show them the label.");
  return tr("Call {} or the poison centre. Show them the label.", number);
}

// The yard that is walked, as who comes to help must be told; empty: nobody said.
std::string where_we_are(const Look& look) {
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk == nullptr) return {};
  return look.farm.yards.at(walk->yard).address;
}

void draw_place(Touch& t, const Rect& rect, const std::string& address) {
  t.fill(rect, Surface::Panel, t.mm(0.7F));
  text(t, inset(rect, t.mm(3), t.mm(1)), tr("You are at: {}", address),
       {.size = Size::Large, .align = Align::Center, .least = Size::Body});
}

}  // namespace

bool first_aid(Touch& t, const Rect& room, const Look& look) {
  Rect rest = room;
  const Rect foot = cut_bottom(rest, t.least_h() * 1.2F, t.gap());
  text(t, cut_top(rest, line_height(t, Size::Large), t.mm(1.5F)), tr("First aid: oxalic acid"),
       {.size = Size::Large});
  const std::string here = where_we_are(look);
  // Lying, whom to call and where we are stand side by side: what to do keeps its letters.
  Rect call = cut_bottom(rest, t.mm(15), t.mm(2));
  if (!here.empty())
    draw_place(
        t,
        t.portrait() ? cut_bottom(rest, t.mm(15), t.mm(2)) : cut_right(call, call.w / 2, t.mm(2)),
        here);
  const std::vector<Rect> boxes = rows(rest, kLines.size(), t.mm(2));
  const Size size = line_size(t, boxes[0]);
  for (std::size_t i = 0; i < kLines.size(); ++i) draw_line(t, boxes[i], kLines[i], size);
  t.fill(call, Surface::Alarm);
  text(t, inset(call, t.mm(3), t.mm(1)), call_words(look.farm.setup.emergency_number),
       {.size = Size::Large, .align = Align::Center, .least = Size::Body});
  return button(t, foot, tr("Back"), {.large = true});
}

}  // namespace ui
