#include "storage/text/csv_out.h"

#include <algorithm>
#include <array>

namespace storage {
namespace {

// What common spreadsheet programs begin a formula with (common practice; the full-width forms
// count in some languages' versions).
constexpr std::array<std::string_view, 11> kFormulas{
    "=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"};

constexpr std::string_view kDigits = "0123456789";

bool looks_like_a_formula(std::string_view cell) {
  return std::any_of(kFormulas.begin(), kFormulas.end(),
                     [&](std::string_view begin) { return cell.starts_with(begin); });
}

// Every program in every language reads such a number alike, and writes it back as it was: digits
// without a zero before them, as many as a 64-bit floating-point number holds exactly.
bool is_plain_whole(std::string_view cell) {
  const bool digits = cell.find_first_not_of(kDigits) == cell.npos;
  return digits && cell.size() <= 15 && (cell == "0" || !cell.starts_with('0'));
}

// "24-118": no day, month or year has so many digits, and no program takes it for a number.
bool is_no_date(std::string_view cell) {
  const std::size_t dash = cell.find('-');
  if (dash == cell.npos || cell.find_first_not_of("0123456789-") != cell.npos) return false;
  const std::size_t first = dash, second = cell.size() - dash - 1;
  const bool one_dash = cell.find('-', dash + 1) == cell.npos;
  const auto never = [](std::size_t digits) { return digits == 3 || digits > 4; };
  return one_dash && (never(first) || never(second));
}

// Digits and the marks that people of some country put between them: "1.000" is one in one language
// and a thousand in another, "007" loses its zeros, "1E5" and "3/4" become something else.
bool looks_like_a_number(std::string_view cell) {
  return cell.find_first_of(kDigits) != cell.npos &&
         cell.find_first_not_of("0123456789.,:/%() -eE'") == cell.npos && !is_plain_whole(cell) &&
         !is_no_date(cell);
}

// Behind any apostrophes.
bool would_be_changed(std::string_view cell) {
  cell.remove_prefix(std::min(cell.find_first_not_of('\''), cell.size()));
  return looks_like_a_formula(cell) || looks_like_a_number(cell);
}

}  // namespace

void CsvOut::plain(std::string_view cell) {
  if (!at_start_) bytes_ += ',';
  at_start_ = false;
  bytes_ += cell;
}

std::string_view without_mark(std::string_view cell) {
  if (cell.starts_with('\'') && would_be_changed(cell)) cell.remove_prefix(1);
  return cell;
}

void CsvOut::text(std::string_view given) {
  std::string cell(given);
  std::erase(cell, '\0');  // first: behind one a formula would go unseen
  std::string safe = would_be_changed(cell) ? "'" : "";
  bool quote = false;
  for (const char c : cell) {
    quote = quote || c == ',' || c == '"' || c == '\r' || c == '\n';
    safe += c;
    if (c == '"') safe += c;
  }
  plain(quote ? '"' + safe + '"' : safe);
}

void CsvOut::number(std::int64_t cell) { plain(std::to_string(cell)); }

void CsvOut::milligrams(engine::Mass mass) { number(mass.mg); }

void CsvOut::day(const std::optional<engine::Date>& day) {
  plain(day ? engine::iso_date(*day) : "");
}

void CsvOut::as_it_is(std::string_view cell) { plain(cell); }

void CsvOut::empty() { plain(""); }

void CsvOut::end_row() {
  bytes_ += "\r\n";
  at_start_ = true;
}

}  // namespace storage
