// storage/sheets/cells.h -- what the text of one spreadsheet cell means: numbers, days, words.
//
// Strict: a cell that could mean two things means nothing. No locale is asked.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/instant.h"
#include "engine/core/terms.h"

namespace storage {

// A decimal number times 10^decimals, rounded half away from zero: fixed("1.25", 1, '.') is 13.
// Only the given mark separates decimals; no thousands marks, no exponent; at most 9 digits before
// the mark.
[[nodiscard]] std::optional<std::int64_t> fixed(std::string_view text, int decimals, char mark);

// A whole number; "3.0" is one too, but "3.000" is none: it may be three thousand.
[[nodiscard]] std::optional<int> whole(std::string_view text, char mark);

// "yes", "x", "on", "si", 1 and more; "no", "none", "off", 0.
[[nodiscard]] std::optional<bool> yes_no(std::string_view text);

// nullopt for a word that is not known.
[[nodiscard]] std::optional<engine::CountMethod> count_method(std::string_view text);

// Which of 8/7 is the day? Only the whole column can tell.
enum class DateOrder { Unknown, DayFirst, MonthFirst, Mixed };
[[nodiscard]] DateOrder date_order(const std::vector<std::string_view>& cells);

struct DateCell {
  std::optional<engine::Date> date;
  std::string wrong;  // when there is none: what is wrong and what to do
};
// ISO days (a time after them is passed over), d.m.y, and d/m/y or m/d/y in the column's order.
// Years of two digits are of this century.
[[nodiscard]] DateCell read_date(std::string_view text, DateOrder order);

}  // namespace storage
