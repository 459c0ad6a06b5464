// ui/commands/say.h -- the one way from the commands to a terminal.
//
// Names, notes and file names come from outside: other tablets, spreadsheets, sticks. A terminal
// obeys control characters in them: it moves the cursor, hides lines, answers as if the keeper had
// typed. So every text that is put into a line stands there without: control characters, line ends,
// marks that turn the writing direction and bytes that are no UTF-8 become "?".
#pragma once
#include <fmt/format.h>

#include <cstdio>
#include <string>
#include <string_view>
#include <type_traits>

namespace ui {

// Fit for one line of a terminal.
[[nodiscard]] std::string for_terminal(std::string_view text);
// The same for a text of several lines that the program made: its line ends stay.
[[nodiscard]] std::string lines_for_terminal(std::string_view text);
// JSON that says the same, with those characters as \u escapes (RFC 8259, section 7).
[[nodiscard]] std::string json_for_terminal(std::string_view json);

template <class T>
using Said = std::conditional_t<std::is_convertible_v<const T&, std::string_view>, std::string, T>;

template <class T>
[[nodiscard]] Said<T> said(const T& value) {
  if constexpr (std::is_convertible_v<const T&, std::string_view>)
    return for_terminal(value);
  else
    return value;
}

// A file's bytes to standard output, as they are; on a terminal without what it would obey.
void print_bytes(std::string_view bytes);
// A text of several lines that the program made; the exit code 0.
int print_text(std::string_view lines);

// As fmt::print to standard output, with each text among `values` as for_terminal shows it.
template <class... T>
void say(fmt::format_string<Said<T>...> format, const T&... values) {
  fmt::print("{}", fmt::format(format, said(values)...));
}

}  // namespace ui
