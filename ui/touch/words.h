// ui/touch/words.h -- the few words the widgets themselves say, so that they can be translated.
//
// `{a}` and `{b}` are replaced by numbers. The letter pages are UTF-8, one key for each letter.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace ui {

struct Words {
  std::string ok = "OK";
  std::string cancel = "CANCEL";
  std::string remove = "DELETE";
  std::string space = "SPACE";
  std::string shift = "SHIFT";
  std::string digits = "123";
  std::string letters = "ABC";
  std::string previous = "PREV";
  std::string next = "NEXT";
  std::string page_of = "{a} of {b}";
  std::string range = "{a} to {b}";
  std::string hold = "hold for 1 second";
  std::string running = "running";
  std::string due = "DUE NOW";
  std::string over = "OVER";
  std::string decimal_point = ".";
  std::string upper_keys = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  std::string lower_keys = "abcdefghijklmnopqrstuvwxyz";
  std::string sign_keys = "1234567890.,-/?!&+'()";
};

[[nodiscard]] std::string filled(std::string_view pattern, std::string_view a,
                                 std::string_view b = {});
// The single letters of a UTF-8 text; a byte that is no UTF-8 stands alone.
[[nodiscard]] std::vector<std::string> letters_of(std::string_view text);

}  // namespace ui
