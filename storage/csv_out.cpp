#include "storage/csv_out.h"

#include <fmt/format.h>

namespace storage {
namespace {

bool looks_like_a_formula(std::string_view cell) {
  return !cell.empty() && std::string_view("=+-@\t\r\n").find(cell.front()) != cell.npos;
}

}  // namespace

void CsvOut::plain(std::string_view cell) {
  if (!at_start_) bytes_ += ',';
  at_start_ = false;
  bytes_ += cell;
}

void CsvOut::text(std::string_view cell) {
  std::string safe = looks_like_a_formula(cell) ? "'" : "";
  bool quote = false;
  for (const char c : cell) {
    if (c == '\0') continue;
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
