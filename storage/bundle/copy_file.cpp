#include "storage/bundle/copy_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

namespace storage {
namespace {

std::string without_nul_escapes(std::string_view json) {
  constexpr std::string_view kNul = "\\u0000";
  std::string out;
  while (!json.empty()) {
    const std::size_t escape = std::min(json.find('\\'), json.size());
    out += json.substr(0, escape);
    json.remove_prefix(escape);
    const bool nul = json.starts_with(kNul);
    const std::size_t taken = std::min(nul ? kNul.size() : 2, json.size());
    if (!nul) out += json.substr(0, taken);  // an escape has two signs or begins with two
    json.remove_prefix(taken);
  }
  return out;
}

// The year 0 is 1 BC to PostgreSQL, which knows no year of that number.
std::string sql_year(const std::string& text) {
  return text.starts_with("0000") ? "0001" + text.substr(4) + " BC" : text;
}

}  // namespace

void CopyFile::text(std::string_view cell) {
  next();
  for (const char c : cell) escape(c);
}

void CopyFile::json(std::string_view text) { this->text(without_nul_escapes(text)); }

void CopyFile::grams(engine::Mass m) {
  plain(
      fmt::format("{}{}.{:03}", m.mg < 0 ? "-" : "", std::abs(m.mg) / 1000, std::abs(m.mg) % 1000));
}

void CopyFile::degrees(int udeg) { text(fmt::format("{:.6f}", udeg / 1e6)); }

void CopyFile::seconds(const std::optional<engine::Elapsed>& length) {
  length ? number(length->length.count() / 1000) : unknown();
}

void CopyFile::time(const engine::Stamp& s) { text(sql_year(engine::rfc3339(s))); }

void CopyFile::day(engine::Date d) { text(sql_year(engine::iso_date(d))); }

void CopyFile::end_row() {
  row_ += '\n';
  first_ = true;
  if (row_.size() > (1U << 20)) flush();
}

engine::Status CopyFile::end() {
  flush();
  return written_;
}

void CopyFile::next() {
  if (!first_) row_ += '\t';
  first_ = false;
}

void CopyFile::plain(std::string_view cell) {
  next();
  row_ += cell;
}

void CopyFile::escape(char c) {
  if (c == '\\')
    row_ += "\\\\";
  else if (c == '\t')
    row_ += "\\t";
  else if (c == '\n')
    row_ += "\\n";
  else if (c == '\r')
    row_ += "\\r";
  else if (c != '\0')
    row_ += c;
}

void CopyFile::flush() {
  if (written_.ok()) written_ = write_(row_);
  row_.clear();
}

}  // namespace storage
