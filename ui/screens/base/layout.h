// ui/screens/base/layout.h -- the layout that all screens share: title on the left, the list under
// it, what can be done at the right (upright screens: at the bottom), entry by panels over the
// screen.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/words/words.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/base/typing.h"

namespace ui {

// Cuts the title off the room: a way back (if `back` is given, set true when tapped), the title and
// a quiet line under it.
void head(Touch& t, Rect& room, std::string_view title, std::string_view second,
          bool* back = nullptr);

struct Act {
  std::string label;
  std::string second{};
  bool enabled = true;
  Surface surface = Surface::Button;
  Mark mark = Mark::None;
  bool hold = false;
  bool big = false;  // the one that is most often wanted
};
// Cuts the buttons off the room and returns the one that counted.
std::optional<std::size_t> acts(Touch& t, Rect& room, std::span<const Act> list);

// Sections of a screen: a column of choices at the left, rows of them at the top when upright.
void sections(Touch& t, Rect& room, std::span<const std::string> names, int& chosen, int& page);

// The words in the middle of the room when there is nothing to list.
void nothing_here(Touch& t, const Rect& room, std::string_view words);

// Lines of text that are only looked at, in a panel; what does not fit is counted in a last line.
void told(Touch& t, const Rect& rect, std::string_view title, std::span<const std::string> lines,
          Surface surface = Surface::Panel);

// The same for text of any length, in pages; nothing is left out.
void paragraphs(Touch& t, const Rect& rect, int& page, std::span<const std::string> lines);

// Makes a row of a list that wide hold a long title: first without its second line, then with an
// ellipsis (the page behind the row has it in full).
void fit_row(const Touch& t, Row& row, float list_width);

// What was said about a file, its folders left out: "own.json: ...".
[[nodiscard]] std::string without_folders(const std::string& line);

// A row that opens an entry: "Lot code: 24-118" with what it is for under it.
[[nodiscard]] Row field(std::string_view name, std::string_view value, std::string_view hint = {});

// Panels over the screen for what is being typed; true when it is done and `out` is set. Closed
// (Typing::field back to -1) when done or cancelled.
bool typed_words(Touch& t, Typing& typing, const TextAsk& ask, std::string& out);
bool typed_number(Touch& t, Typing& typing, const NumberAsk& ask, double& out);
void start_words(Typing& typing, int field, std::string_view now = {});
void start_number(Typing& typing, int field);

// "Fri 14 Aug 2026"; "14 Aug" in the same year as `today`.
[[nodiscard]] std::string day_words(engine::Date d);
[[nodiscard]] std::string short_day(engine::Date d, engine::Date today);
// "today", "tomorrow", "in 3 days", "yesterday", "3 days ago".
[[nodiscard]] std::string from_today(engine::Date d, engine::Date today);
[[nodiscard]] int days_from(engine::Date from, engine::Date to);
[[nodiscard]] engine::Date plus_days(engine::Date d, int days);
// "3 h 10 min", "12 min".
[[nodiscard]] std::string hours_minutes(engine::Ms length);

[[nodiscard]] std::string show(const Look& look, engine::Mass m);
// A mass typed in the unit of the setup, and the other way round.
[[nodiscard]] engine::Mass mass_typed(const Look& look, double value);
[[nodiscard]] std::string mass_unit(const Look& look);
// Air is asked for and typed in the unit of the setup.
[[nodiscard]] NumberAsk ask_air(const Look& look, std::string title);
[[nodiscard]] engine::Temperature air_typed(const Look& look, double value);
[[nodiscard]] double mass_shown(const Look& look, engine::Mass m);

}  // namespace ui
