// ui/screens/walk/plan/walk_pages.h -- the pieces that the walk screens are put together from.
// Internal to the walk screens.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ui/screens/state/views.h"

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

// The five things to have on or at hand, with what each needs tonight.
struct ProtectionItem {
  engine::Protection item;
  std::string label, second;
};
[[nodiscard]] std::vector<ProtectionItem> protection_items(const Look& look,
                                                           const engine::Walk& walk);

// "from the west"; "calm"; "not noted".
[[nodiscard]] std::string wind_words(const engine::Conditions& c);

// The event that START writes, from what was noted.
[[nodiscard]] engine::WalkOpened walk_opening(const Look& look, const WalkView& view);

// After a break the protection is to be ticked again before the next setting (walk_again.cpp).
[[nodiscard]] bool again_wanted(const Look& look, const engine::Walk& walk, const WalkView& view);

// ---- the single pages ----

Ask walk_yards(Touch& t, const Rect& room, const Look& look, Views& views);
Ask walk_open(Touch& t, const Rect& room, const Look& look, Views& views);
// Takes its strip off `room`, where there is such a cloth in the yard.
Ask cloth_left_on(Touch& t, Rect& room, const Look& look, engine::YardId yard);
Ask walk_open_page(Touch& t, const Rect& room, const Look& look, Views& views);
Ask walk_gate(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, Views& views);
Ask walk_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, Views& views);
Ask walk_end(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, Views& views);
Ask walk_panel(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               Views& views);
Ask walk_mishap(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                Views& views);
Ask walk_again(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               Views& views);
Ask walk_closed(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                Views& views);
Ask walk_dose(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, Views& views);
Ask walk_map(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, Views& views);
Ask walk_close(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               Views& views);
void first_aid(Touch& t, const Rect& room, WalkView& view);

}  // namespace ui
