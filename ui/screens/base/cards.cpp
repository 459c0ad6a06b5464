#include "ui/screens/base/cards.h"

#include <algorithm>

#include "ui/screens/base/drawing.h"
#include "ui/touch/buttons.h"
#include "ui/touch/face.h"
#include "ui/touch/paging.h"

namespace ui {

namespace {

void draw_title(Touch& t, const Rect& line, const std::string& title) {
  const Role role = role_for(t, title, line.w, Role::Title, Role::Body);
  say(t, line, shortened(t, title, line.w, role), role);
}

void draw_card(Touch& t, const Rect& rect, const Card& card, Surface surface) {
  draw_face(t, rect, surface, true, card.chosen);
  Rect room = inset(rect, t.mm(3), t.mm(1));
  if (card.picture) {
    const Rect box = cut_left(room, t.mm(12), step(t));
    card.picture(t, box);
  }
  const float upper = high(t, Role::Title), lower = high(t, Role::Body);
  const float both = card.second.empty() ? upper : upper + lower + t.mm(0.6F);
  room = inset(room, 0, std::max(0.0F, (room.h - both) / 2));
  Rect line = cut_top(room, upper, t.mm(0.6F));
  if (!card.tag.empty())
    badge(t, cut_right(line, badge_width(t, card.tag, card.mark), t.mm(2)), card.tag, card.mark,
          card.tag_surface);
  draw_title(t, line, card.title);
  if (card.second.empty()) return;
  room.h = std::max(room.h, lower);
  if (card.strip)  // of one width in all cards, so that they can be compared
    card.strip(t, cut_left(room, room.w * (t.portrait() ? 0.38F : 0.5F), step(t)));
  say(t, room, shortened(t, card.second, room.w, Role::Body), Role::Body,
      {.place = Place::Top, .quiet = true});
}

}  // namespace

float card_high(const Touch& t) {
  return std::max(t.least_h(), high(t, Role::Title) + high(t, Role::Body) + t.mm(2.4F));
}

std::optional<std::size_t> cards(Touch& t, const Rect& rect, int& page, std::size_t count,
                                 const std::function<Card(std::size_t)>& card_at) {
  const Paging p = paging(t, rect, count, 1, card_high(t), page);
  Rect room = p.room;
  std::optional<std::size_t> tapped;
  for (std::size_t i = p.first; i < p.last; ++i) {
    const Card card = card_at(i);
    const Rect cell = cut_top(room, card_high(t), t.gap());
    const Hit hit = t.target(card.label, cell, true, false, card.id);
    draw_card(t, cell, card, face_of(hit, true, card.chosen ? Surface::Chosen : Surface::Button));
    if (hit.tapped) tapped = i;
  }
  p.turn(t, page);
  return tapped;
}

float badge_width(const Touch& t, std::string_view word, Mark mark) {
  const float side = mark == Mark::None ? 0 : high(t, Role::Body) + t.mm(1);
  return t.mm(3.2F) + side + wide(t, word, Role::Body);
}

Rect badge(Touch& t, const Rect& rect, std::string_view word, Mark mark, Surface surface) {
  const float tall = std::min(rect.h, high(t, Role::Body) + t.mm(1.2F));
  const float width = badge_width(t, word, mark);
  const Rect box{rect.right() - width, rect.mid_y() - tall / 2, width, tall};
  t.fill(box, surface, t.mm(0.3F));
  Rect room = inset(box, t.mm(1.4F), 0);
  if (mark != Mark::None) {
    const Rect shape = cut_left(room, high(t, Role::Body), t.mm(1));
    draw_mark(t.draw(), mark, inset(shape, t.mm(0.5F)), t.theme()[surface].ink);
  }
  room.w += 2;  // the width was measured in floats
  say(t, room, word, Role::Body);
  return box;
}

std::function<void(Touch&, const Rect&)> icon_picture(Icon icon) {
  return [icon](Touch& t, const Rect& box) {
    draw_icon(t.draw(), icon, inset(box, t.mm(1)), t.theme()[t.surface_at(box)].ink);
  };
}

std::function<void(Touch&, const Rect&)> ring_picture(std::string number, Surface surface) {
  return [number = std::move(number), surface](Touch& t, const Rect& box) {
    const float across = std::min(box.w, box.h), thick = t.mm(1.2F);
    const Skin& skin = t.theme()[surface];
    const Colour edge = t.surface_at(box) == Surface::Chosen ? skin.ground : skin.edge;
    draw_ring(t, box.mid_x(), box.mid_y(), (across - thick) / 2, 1, edge, edge, thick);
    const Role role = role_for(t, number, across - 3 * thick, Role::Title, Role::Body);
    say(t, box, number, role, {.align = Align::Center, .tight = true});
  };
}

}  // namespace ui
