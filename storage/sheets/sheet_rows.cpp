#include "storage/sheets/sheet_rows.h"

#include <fmt/format.h>

#include <algorithm>

#include "storage/text/utf8.h"

namespace storage {
namespace {

constexpr std::size_t kLongestName = 120;  // bytes: a name must fit on a button
constexpr std::size_t kLongestNotes = 4000;
constexpr int kFarthest = 100'000;  // cm from the yard's origin: one kilometre

std::string quoted(std::string_view text) {
  constexpr std::size_t kShown = 60;
  if (text.size() <= kShown) return fmt::format("\"{}\"", one_line(text));
  std::size_t cut = kShown;
  while (cut > 0 && (static_cast<unsigned char>(text[cut]) & 0xc0) == 0x80) --cut;
  return fmt::format("\"{}...\"", one_line(text.substr(0, cut)));
}

const char* label(Field f) {
  constexpr const char* kLabels[kFields] = {
      "yard",      "colony", "brood boxes", "supers", "east",   "north", "order", "latitude",
      "longitude", "zone",   "note",        "date",   "method", "mites", "bees",  "hours"};
  return kLabels[static_cast<std::size_t>(f)];
}

}  // namespace

std::string_view RowCells::text(Field f) const {
  const int column = columns_.column(f);
  if (column < 0 || static_cast<std::size_t>(column) >= row_.cells.size()) return {};
  return row_.cells[static_cast<std::size_t>(column)];
}

void RowCells::refuse_cell(Field f, const std::string& why) {
  refuse(fmt::format("{}: {} {}", label(f), quoted(text(f)), why));
}

std::string RowCells::name(Field f) {
  std::string out = one_line(text(f));
  if (out.size() > kLongestName) refuse_cell(f, "is longer than 120 letters; shorten the name");
  return out;
}

std::optional<int> RowCells::whole_number(Field f, int low, int high) {
  const std::string_view cell = text(f);
  if (cell.empty()) return std::nullopt;
  const auto value = whole(cell, mark_);
  if (!value)
    refuse_cell(f, "is no whole number");
  else if (*value < low || *value > high)
    refuse_cell(f, fmt::format("must be {} to {}", low, high));
  return value;
}

std::optional<bool> RowCells::yes(Field f) {
  const std::string_view cell = text(f);
  if (cell.empty()) return std::nullopt;
  const auto value = yes_no(cell);
  if (!value) refuse_cell(f, "is neither yes nor no");
  return value;
}

std::optional<std::int64_t> RowCells::decimal(Field f, int decimals, std::int64_t most) {
  const auto value = fixed(text(f), decimals, mark_);
  if (!value) {
    refuse_cell(f, fmt::format("is no number such as 12{}5", mark_));
  } else if (*value < -most || *value > most) {
    refuse_cell(f, "is out of range");
    return std::nullopt;
  }
  return value;
}

std::optional<engine::Place> RowCells::place() {
  if (text(Field::Lat).empty() && text(Field::Lon).empty()) return std::nullopt;
  const auto lat = decimal(Field::Lat, 6, 90'000'000);
  const auto lon = decimal(Field::Lon, 6, 180'000'000);
  if (!lat || !lon) return std::nullopt;
  return engine::Place{static_cast<int>(*lat), static_cast<int>(*lon)};
}

std::optional<engine::Spot> RowCells::spot() {
  if (text(Field::East).empty() && text(Field::North).empty()) return std::nullopt;
  const auto in_cm = [&](Field f) -> std::optional<int> {
    const std::int64_t unit = columns_.unit_tenth_mm[f == Field::North];
    const auto thousandths = decimal(f, 3, 1'000'000'000);
    if (!thousandths) return std::nullopt;
    const std::int64_t scaled = *thousandths * unit;  // in ten-millionths of a metre
    const std::int64_t cm = (scaled + (scaled < 0 ? -50'000 : 50'000)) / 100'000;
    if (cm < -kFarthest || cm > kFarthest) refuse_cell(f, "is more than 1 km from the yard");
    return static_cast<int>(cm);
  };
  const auto x = in_cm(Field::East), y = in_cm(Field::North);
  if (!x || !y) return std::nullopt;
  return engine::Spot{*x, *y};
}

std::string RowCells::zone() {
  const std::string_view cell = text(Field::Zone);
  const auto fits = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/' ||
           c == '_' || c == '-' || c == '+';
  };
  if (cell.size() > 64 || !std::all_of(cell.begin(), cell.end(), fits))
    refuse_cell(Field::Zone, "is no time zone such as America/Denver");
  return std::string(cell);
}

std::optional<engine::Date> RowCells::date(DateOrder order) {
  const std::string_view cell = text(Field::Date);
  if (cell.empty()) {
    refuse("date: is empty");
    return std::nullopt;
  }
  const DateCell read = read_date(cell, order);
  if (!read.date) refuse("date: " + read.wrong);
  return read.date;
}

Notes RowCells::notes() {
  Notes out;
  std::size_t size = 0;
  if (std::string note = one_line(text(Field::Note)); !note.empty())
    out.emplace_back("", std::move(note));
  for (const Extra& extra : columns_.extras) {
    if (extra.column >= row_.cells.size()) continue;
    if (std::string value = one_line(row_.cells[extra.column]); !value.empty())
      out.emplace_back(extra.key, std::move(value));
  }
  for (std::size_t i = columns_.width; i < row_.cells.size(); ++i)
    if (std::string value = one_line(row_.cells[i]); !value.empty())
      out.emplace_back(free_key(columns_.keys, "column " + column_letters(i)), std::move(value));
  for (const auto& [key, value] : out) size += key.size() + value.size();
  if (size > kLongestNotes) refuse("the notes of this row are longer than 4000 letters");
  return out;
}

std::string note_line(const std::string& key, const std::string& text) {
  if (!key.empty()) return key + ": " + text;
  return text.find(": ") == std::string::npos ? text : "Notes: " + text;
}

bool has_line(std::string_view note, std::string_view line) {
  for (std::size_t at = note.find(line); at != std::string_view::npos;
       at = note.find(line, at + 1)) {
    const std::size_t end = at + line.size();
    if ((at == 0 || note[at - 1] == '\n') && (end == note.size() || note[end] == '\n')) return true;
  }
  return false;
}

namespace {

// Where the line "KEY: ..." begins; npos: there is none.
std::size_t line_with(const std::string& note, const std::string& key) {
  const std::string head = key + ": ";
  if (note.starts_with(head)) return 0;
  const std::size_t before = note.find("\n" + head);
  return before == std::string::npos ? before : before + 1;
}

}  // namespace

std::string merged_note(std::string_view old, const Notes& notes) {
  std::string out(old);
  for (const auto& [key, text] : notes) {
    const std::string line = note_line(key, text);
    if (has_line(out, line)) continue;
    const std::size_t at = key.empty() ? std::string::npos : line_with(out, key);
    if (at == std::string::npos)
      out += (out.empty() ? "" : "\n") + line;
    else
      out.replace(at, std::min(out.find('\n', at), out.size()) - at, line);
  }
  return out;
}

}  // namespace storage
