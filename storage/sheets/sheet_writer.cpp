#include "storage/sheets/sheet_writer.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "storage/sheets/csv_table.h"

namespace storage {

void SheetWriter::cell(std::size_t row, std::size_t column, std::string_view text) {
  if (text.empty() || !wrong_.empty()) return;
  if (row < row_ || (row == row_ && (column < column_ || (column == column_ && filled_)))) {
    wrong_ = fmt::format("row {}: its cells are not in order", row + 1);
    return;
  }
  if (column >= kMostColumns) wrong_ = fmt::format("row {}: has more than 500 columns", row + 1);
  if (row >= static_cast<std::size_t>(kMostRows))
    wrong_ = "has more rows than a spreadsheet holds (1,048,576)";
  if (text_.size() + text.size() > kLargestSheet)
    wrong_ = "holds more than 64 MB of text; split it into smaller sheets";
  if (!wrong_.empty()) return;
  if (text_.empty()) text_ = "sep=\t\n";
  for (; row_ < row; ++row_, column_ = 0, filled_ = false) text_ += '\n';
  for (; column_ < column; ++column_) text_ += '\t';
  filled_ = true;
  text_ += '"';
  for (const char c : text) {
    if (c == '"') text_ += '"';
    if (c != '\0') text_ += c;
  }
  text_ += '"';
}

std::string SheetWriter::text() && { return text_.empty() ? text_ : std::move(text_) + "\n"; }

std::string plain_number(std::string_view stored) {
  double value = 0;
  const auto [end, error] = std::from_chars(stored.data(), stored.data() + stored.size(), value);
  if (error != std::errc{} || end != stored.data() + stored.size() || !std::isfinite(value))
    return std::string(stored);
  if (std::abs(value) >= 1e15) return fmt::format("{:.0f}", value);
  if (value == 0) return "0";
  const int whole_digits = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  std::string text = fmt::format("{:.{}f}", value, std::max(0, 15 - std::max(whole_digits, 0)));
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace storage
