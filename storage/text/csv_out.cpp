#include "storage/text/csv_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace storage {
namespace {

// What common spreadsheet programs begin a formula with (common practice; the full-width forms
// count in some languages' versions).
constexpr std::array<std::string_view, 11> kFormulas{
    "=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"};

// Behind any apostrophes.
bool looks_like_a_formula(std::string_view cell) {
  cell.remove_prefix(std::min(cell.find_first_not_of('\''), cell.size()));
  return std::any_of(kFormulas.begin(), kFormulas.end(),
                     [&](std::string_view begin) { return cell.starts_with(begin); });
}

}  // namespace

void CsvOut::plain(std::string_view cell) {
  if (!at_start_) bytes_ += ',';
  at_start_ = false;
  bytes_ += cell;
}

std::string_view without_mark(std::string_view cell) {
  if (cell.starts_with('\'') && looks_like_a_formula(cell)) cell.remove_prefix(1);
  return cell;
}

void CsvOut::text(std::string_view given) {
  std::string cell(given);
  std::erase(cell, '\0');  // first: behind one a formula would go unseen
  std::string safe = looks_like_a_formula(cell) ? "'" : "";
  bool quote = false;
  for (const char c : cell) {
    quote = quote || c == ',' || c == '"' || c == '\r' || c == '\n';
    safe += c;
    if (c == '"') safe += c;
  }
  plain(quote ? '"' + safe + '"' : safe);
}

void CsvOut::number(std::int64_t cell) { plain(std::to_string(cell)); }

void CsvOut::tenths(std::int64_t tenths) {
  plain(fmt::format("{:.1f}", static_cast<double>(tenths) / 10.0));
}

void CsvOut::grams(engine::Mass mass) {
  plain(fmt::format("{:.3f}", static_cast<double>(mass.mg) / 1000.0));
}

void CsvOut::empty() { plain(""); }

void CsvOut::end_row() {
  bytes_ += "\r\n";
  at_start_ = true;
}

}  // namespace storage
