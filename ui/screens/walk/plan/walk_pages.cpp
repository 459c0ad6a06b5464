#include "ui/screens/walk/plan/walk_pages.h"

#include <algorithm>

#include "engine/language/tr.h"
#include "engine/words/words.h"

namespace ui {

using engine::tr;
using engine::translated;

WalkPage walk_page(Touch& t, const Rect& room, std::string_view title) {
  WalkPage page{room, {}};
  page.footer = cut_bottom(page.room, t.least_h(), t.gap());
  const Rect top = cut_top(page.room, line_height(t, Size::Large), t.mm(2));
  text(t, top, title, {.size = Size::Large});
  return page;
}

std::optional<int> walk_footer(Touch& t, const Rect& rect, WalkView& view,
                               std::span<const DialogButton> buttons) {
  const std::vector<Rect> cells = columns(rect, buttons.size() + 1, t.gap());
  const float wide = std::min(cells.back().w, t.mm(56));
  Rect rest = rect;
  if (button(t, cut_right(rest, wide, t.gap()), tr("First aid"), {.surface = Surface::Warning}))
    view.first_aid = true;
  std::optional<int> counted;
  for (std::size_t i = 0; i < buttons.size(); ++i) {
    const DialogButton& b = buttons[i];
    const Rect cell = cut_left(rest, wide, t.gap());
    const ButtonLook look{.surface = b.surface};
    const bool hit = b.hold ? hold_button(t, cell, b.label, look) : button(t, cell, b.label, look);
    if (hit) counted = static_cast<int>(i);
  }
  return counted;
}

namespace {

float words_width(const Touch& t, float width) { return width - t.mm(6) - t.mm(9); }

}  // namespace

float notice_height(const Touch& t, std::string_view words, float width) {
  return text_height(t, words, words_width(t, width), Size::Body) + t.mm(2.4F);
}

void notice(Touch& t, Rect& room, std::string_view words, Mark mark, Surface surface) {
  const float high = std::min(room.h, notice_height(t, words, room.w));
  const Rect box = cut_top(room, high, t.mm(1.6F));
  t.fill(box, surface, t.mm(0.3F));
  Rect inside = inset(box, t.mm(3), t.mm(1));
  Rect side = cut_left(inside, t.mm(7), t.mm(2));
  side.h = std::min(side.h, t.mm(7));
  draw_mark(t.draw(), mark, side, t.theme()[surface].ink);
  text(t, inside, words);
}

std::optional<std::size_t> choices(Touch& t, const Rect& rect, std::span<const Choice> list,
                                   std::size_t cols, float most_mm) {
  const std::size_t lines = (list.size() + cols - 1) / cols;
  const float gaps = t.gap() * static_cast<float>(lines - 1);
  Rect room = rect;
  room.h = std::min(room.h, t.mm(most_mm) * static_cast<float>(lines) + gaps);
  const std::vector<Rect> cells = grid(room, cols, lines, t.gap());
  const bool large = std::all_of(list.begin(), list.end(), [&](const Choice& c) {
    return text_width(t, c.label, Size::Large) <= words_width(t, cells[0].w);
  });
  std::optional<std::size_t> tapped;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Choice& c = list[i];
    const ButtonLook look{.enabled = c.enabled,
                          .surface = c.chosen ? Surface::Chosen : Surface::Button,
                          .mark = c.chosen && c.mark == Mark::None ? Mark::Check : c.mark,
                          .second = c.second,
                          .large = large};
    if (button(t, cells[i], c.label, look)) tapped = i;
  }
  return tapped;
}

// Letters of ASCII, and in UTF-8 those from a with grave to thorn (U+00E0 to U+00FE): their
// capitals stand 32 below.
std::string capital_word(std::string words) {
  const auto byte = [&words](std::size_t i) { return static_cast<unsigned char>(words[i]); };
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  else if (words.size() > 1 && byte(0) == 0xC3 && byte(1) >= 0xA0 && byte(1) <= 0xBE &&
           byte(1) != 0xB7)  // the sign of division
    words[1] = static_cast<char>(byte(1) - 0x20);
  return words;
}

std::vector<const engine::KitItem*> carried(const Look& look, const WalkView& view,
                                            engine::KitSort sort) {
  std::vector<const engine::KitItem*> items = engine::kit_of(look.farm, sort);
  std::erase_if(items, [&](const engine::KitItem* item) {
    return std::find(view.left_at_home.begin(), view.left_at_home.end(), item->id) !=
           view.left_at_home.end();
  });
  return items;
}

const engine::KitItem* respirator_of(const Look& look) {
  const auto all = engine::kit_of(look.farm, engine::KitSort::Respirator);
  return all.empty() ? nullptr : all.front();
}

std::string wind_words(const engine::Conditions& c) {
  if (c.wind_from_deg) return tr("from {}", translated(engine::compass(*c.wind_from_deg)));
  return c.wind_dm_s == 0 ? tr("calm") : tr("not noted");
}

}  // namespace ui
