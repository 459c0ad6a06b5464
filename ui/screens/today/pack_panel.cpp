#include "ui/screens/today/pack_panel.h"

#include <algorithm>

#include "ui/screens/base/cards.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/pack_tiles.h"
#include "ui/touch/face.h"

namespace ui {

bool pack_panel(Touch& t, const Rect& rect, const Look& look, std::string_view title,
                const engine::PackList* pack) {
  const Hit hit = t.target(title, rect, true, false, "What to pack");
  draw_face(t, rect, face_of(hit, true, Surface::Panel), true);
  Rect room = inset(rect, t.mm(1.5F));
  if (pack == nullptr) {
    text(t, room, "No label is chosen in Setup: the dose is not known.", {.least = Size::Body});
    return hit.tapped;
  }
  Rect line = cut_top(room, high(t, Role::Body), t.mm(1));
  const std::string_view word = pack->ready() ? "all there" : "not ready";
  const Mark mark = pack->ready() ? Mark::Check : Mark::Warning;
  const Rect said = cut_right(line, high(t, Role::Body) + wide(t, word, Role::Small) + t.mm(1));
  Rect words = said;
  draw_mark(t.draw(), mark, inset(cut_left(words, high(t, Role::Body), t.mm(1)), t.mm(0.8F)),
            t.theme()[t.surface_at(said)].ink);
  say(t, words, word, Role::Small);
  say(t, line, shortened(t, title, line.w, Role::Body), Role::Body);
  draw_pack_tiles(t, room, pack_tiles(look, *pack));
  return hit.tapped;
}

}  // namespace ui
