// ui/screens/base/cards.h -- a list of large rows, each with a picture of its state: the yards of
// Today, of the counts, of the courses.
//
// Picture, then what it is called and a badge (shape and word), and one quiet line under both. All
// letters have the size of a role; a name that is too long ends in an ellipsis.
#pragma once
#include <functional>
#include <optional>
#include <string>

#include "ui/screens/base/roles.h"
#include "ui/touch/icons.h"
#include "ui/touch/marks.h"

namespace ui {

struct Card {
  std::string label;  // of the target; two cards never share one
  std::string id{};   // defaults to the label
  std::string title, second{};
  std::string tag{};
  Mark mark = Mark::None;
  Surface tag_surface = Surface::Panel;
  bool chosen = false;
  std::function<void(Touch&, const Rect&)> picture{};  // none: the words begin at the left
  std::function<void(Touch&, const Rect&)> strip{};    // drawn before the quiet line, at its left
};

// Height of a card.
[[nodiscard]] float card_high(const Touch& t);
// As many cards as fit, with a pager under them if that is not all; returns the card tapped. Only
// those that are shown are made.
std::optional<std::size_t> cards(Touch& t, const Rect& rect, int& page, std::size_t count,
                                 const std::function<Card(std::size_t)>& card_at);

// A word in body type with its shape in a frame, at the right of `rect`. Returns what it took.
Rect badge(Touch& t, const Rect& rect, std::string_view word, Mark mark, Surface surface);
[[nodiscard]] float badge_width(const Touch& t, std::string_view word, Mark mark);

// A picture of a card: the icon alone, or a number in a ring.
[[nodiscard]] std::function<void(Touch&, const Rect&)> icon_picture(Icon icon);
[[nodiscard]] std::function<void(Touch&, const Rect&)> ring_picture(std::string number,
                                                                    Surface surface);

}  // namespace ui
