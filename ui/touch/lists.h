// ui/touch/lists.h -- lists in pages (nothing ever scrolls), notes by one tap, the bar of screens,
// panels over the screen.
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ui/touch/marks.h"
#include "ui/touch/paging.h"
#include "ui/touch/touch.h"

namespace ui {

struct Row {
  std::string title;
  std::string second{};  // small and quiet, under the title
  std::string tag{};     // state or reason, at the right, with its mark
  Mark mark = Mark::None;
  Surface tag_surface = Surface::Panel;
  bool chosen = false;
  bool enabled = true;
  std::string id{};  // defaults to the title
};
enum class RowKind { Tapped, Shown };  // shown rows are no targets and may be lower

// As many rows as fit, with a pager under them if that is not all; returns the row tapped. The
// titles of one page share one size of type: the largest in which each of them stands.
std::optional<std::size_t> list_rows(Touch& t, const Rect& rect, int& page,
                                     std::span<const Row> rows, RowKind kind = RowKind::Tapped);
// The same for long lists: only the rows that are shown are made.
std::optional<std::size_t> list_rows(Touch& t, const Rect& rect, int& page, std::size_t count,
                                     const std::function<Row(std::size_t)>& row_at,
                                     RowKind kind = RowKind::Tapped);

// The page on which a list of so many rows to be tapped shows the one at `row`.
[[nodiscard]] int page_with(const Touch& t, const Rect& rect, std::size_t count, std::size_t row);

// Notes that combine: two columns (one if narrow) of phrases to switch on and off.
struct Phrase {
  std::string words;
  bool on = false;
};
std::optional<std::size_t> phrases(Touch& t, const Rect& rect, int& page,
                                   std::span<const Phrase> list);

// The names of the screens; the current one is framed, filled and underlined. Returns the one
// tapped. Lies along the longer side of `rect`; takes a second line, or upright a second column, if
// the names need it. `alarm`: the last name is no screen but calls, on that surface, with a mark.
std::optional<int> nav_bar(Touch& t, const Rect& rect, std::span<const std::string> names,
                           int current, std::optional<Surface> alarm = {});
[[nodiscard]] float nav_height(const Touch& t, std::span<const std::string> names, float width);
[[nodiscard]] float nav_width(const Touch& t, std::span<const std::string> names, float height);

// Covers the whole screen (what lay there can be neither tapped nor read) and returns the room
// under the title.
Rect dialog_panel(Touch& t, std::string_view title, Surface surface = Surface::Page);

struct DialogButton {
  std::string label;
  Surface surface = Surface::Button;
  bool hold = false;
};
// Title, text, one to four buttons; returns the one that counted.
std::optional<int> dialog(Touch& t, std::string_view title, std::string_view body,
                          std::span<const DialogButton> buttons);

}  // namespace ui
