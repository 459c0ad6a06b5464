// ui/screens/walk/plan/walk_pages.h -- the pieces that the pages of the walk are put together from.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ui/screens/base/screen.h"
#include "ui/screens/state/walk_state.h"

namespace ui {

// A page of the walk: title on top, buttons along the bottom, the room between.
struct WalkPage {
  Rect room;
  Rect footer;
};
WalkPage walk_page(Touch& t, const Rect& room, std::string_view title);

// The footer's buttons from the left and, always in the same place, "First aid" at the right (it
// sets WalkView::first_aid). Returns the button that counted.
std::optional<int> walk_footer(Touch& t, const Rect& rect, WalkView& view,
                               std::span<const DialogButton> buttons);

// A strip of text on a surface with a mark, as high as its words need; takes it off `room`.
void notice(Touch& t, Rect& room, std::string_view words, Mark mark, Surface surface);
[[nodiscard]] float notice_height(const Touch& t, std::string_view words, float width);

// Large buttons in as many columns as fit, none higher than `most_mm`; returns the one tapped.
struct Choice {
  std::string label;
  std::string second{};
  Mark mark = Mark::None;
  bool chosen = false;
  bool enabled = true;
};
std::optional<std::size_t> choices(Touch& t, const Rect& rect, std::span<const Choice> list,
                                   std::size_t cols, float most_mm = 26);

// "Seal leaking" of "seal leaking".
[[nodiscard]] std::string capital_word(std::string words);

// What may be carried: not retired and not left at home.
[[nodiscard]] std::vector<const engine::KitItem*> carried(const Look& look, const WalkView& view,
                                                          engine::KitSort sort);

// The respirator that is worn: the first that is not retired.
[[nodiscard]] const engine::KitItem* respirator_of(const Look& look);

// "from the west"; "calm"; "not noted".
[[nodiscard]] std::string wind_words(const engine::Conditions& c);

}  // namespace ui
