#include "ui/screens/walk/now/walk_act.h"

#include <fmt/format.h>

#include "engine/language/tr.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/walk/now/walk_yard.h"

namespace ui {

using engine::tr;
using engine::translated;
namespace {

using engine::Do;

// Not yet time, and nothing else is the matter: no reason for alarm, only for patience.
bool only_early(const Step& s) {
  const bool waits = s.advice.what == Do::WaitForDwell || s.advice.what == Do::WaitForSeal;
  return waits && s.advice.timer && s.advice.timer->sure && s.advice.too_short;
}

// Another act is another target: a finger that came down on one must not do the next.
std::string action_id(const std::string& label) { return "action: " + label; }

// The hive with what is to be done to it; a battery or the way on where there is no hive.
void draw_what(Touch& t, const Rect& rect, Colour ink, const Look& look, const Step& s) {
  const InkPen pen{t.draw(), ink, std::max(2.0F, rect.w * 0.035F)};
  const Do what = s.advice.what;
  if (what == Do::ChangeBattery || (what == Do::GoOn && s.advice.battery))
    return draw_icon(t.draw(), Icon::Battery, rect, ink);
  if (what == Do::Resume) return draw_icon(t.draw(), Icon::Go, rect, ink);
  int boxes = 1, supers = 0;
  if (const auto at = look.farm.colonies.find(s.advice.colony); at != look.farm.colonies.end()) {
    boxes = at->second.brood_boxes;
    supers = at->second.supers_on ? 1 : 0;
  }
  const Rect hive = draw_boxes(pen, inset(rect, rect.w * 0.12F, rect.h * 0.12F), boxes, supers);
  const Rect door{hive.mid_x() - rect.w * 0.24F, hive.bottom() - rect.h * 0.1F, rect.w * 0.48F,
                  rect.h * 0.2F};
  if (s.advice.cloth && (what == Do::Cover || what == Do::WaitForDwell))
    return draw_flap(t, door, cloth_number(look, *s.advice.cloth), Surface::Page);
  if (what == Do::Set || what == Do::SetAgain)
    draw_icon(t.draw(), Icon::Kit,
              {hive.right() - rect.w * 0.1F, hive.bottom() - rect.h * 0.34F, rect.w * 0.3F,
               rect.h * 0.3F},
              ink);
}

std::string go_on_words(const Look& look, const engine::Advice& a) {
  const std::string then = tr("tap when it gives vapor again (register: one treatment, it rested)");
  if (!a.battery) return then;
  return tr("{} in, {}", engine::kit_called(look.farm, *a.battery), then);
}

std::string line_of(const Look& look, const engine::Walk& walk, const Step& s) {
  if (s.advice.what == Do::ChangeBattery) return s.battery.line;
  if (s.advice.what == Do::GoOn) return go_on_words(look, s.advice);
  if (s.advice.what == Do::Cover && s.advice.cloth_from)
    return tr("{}: lift, close with {}", called(look, s.advice.colony), under_line(look, walk, s));
  const bool waits = s.advice.what == Do::WaitForDwell || s.advice.what == Do::WaitForSeal;
  if (s.advice.hold > engine::Ms{0})
    return tr("{}: possible now, best in {}", sentence(look, walk, s), to_go(s.advice.hold));
  if (waits && s.advice.timer && s.advice.timer->sure)
    return tr("{}: long enough now, best in {}", called(look, s.advice.colony),
              to_go(s.advice.timer->left()));
  return sentence(look, walk, s);
}

// `said`: the step as a sentence.
ActLook look_of(const Step& s, const std::string& said, std::string& line) {
  ActLook act;
  if (!s.body || s.refusal != engine::Refusal::None) {
    line = translated(engine::sentence(s.refusal));
    act.enabled = false;
  } else if (!s.careful.empty()) {
    act.hold = true;
    act.surface = only_early(s) ? Surface::Waiting : Surface::Warning;
    line = fmt::format("{}. {} {}", said, s.careful,
                       only_early(s) ? tr("Hold if it was done now.") : tr("Hold to record it."));
  }
  return act;
}

}  // namespace

bool draw_act(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
              const Step& s) {
  const std::string label = action_label(look, s);
  const std::string id = action_id(label);
  std::string line = line_of(look, walk, s);
  ActLook act = look_of(s, sentence(look, walk, s), line);
  act.line = line;
  act.id = id;
  act.picture = [&](const Rect& box, Colour ink) { draw_what(t, box, ink, look, s); };
  return act_button(t, rect, label, act);
}

}  // namespace ui
