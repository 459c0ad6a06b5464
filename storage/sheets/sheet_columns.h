// storage/sheets/sheet_columns.h -- which column of a spreadsheet means what, from its header row.
//
// Header names are matched loosely: case, spaces, punctuation, plurals, units in brackets and
// usual other words. A column that is not known is kept: its cells go into the notes.
#pragma once
#include <array>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/status.h"
#include "storage/sheets/csv_table.h"

namespace storage {

enum class SheetSort { Yards, Colonies, Counts };

enum class Field {
  Yard,
  Colony,
  Boxes,
  Supers,
  East,
  North,
  Order,
  Lat,
  Lon,
  Zone,
  Note,
  Date,
  Method,
  Mites,
  Bees,
  Hours,
};
inline constexpr std::size_t kFields = 16;

// A column that is not known. Its lines in the notes are "KEY: cell": a key is a column's alone and
// holds no ": ", so that a later reading finds that column's line and no other.
struct Extra {
  std::size_t column = 0;
  std::string key;  // the header, "column D" when it has none, "Colour 2" when it stands twice
};

struct Columns {
  SheetSort sort = SheetSort::Yards;
  std::array<int, kFields> at{};                     // -1: no such column
  std::array<int, 2> unit_tenth_mm{10'000, 10'000};  // of East and North; metres unless named
  std::size_t width = 0;                             // of the header
  std::vector<Extra> extras;                         // kept as notes
  std::set<std::string> keys;                        // of the extras, and those we use ourselves
  std::vector<std::string> lines;  // for the keeper: what was done with each column

  [[nodiscard]] int column(Field f) const { return at[static_cast<std::size_t>(f)]; }
  [[nodiscard]] bool has(Field f) const { return column(f) >= 0; }
};

// BadInput names the columns that are missing or stand twice, and what to do.
[[nodiscard]] engine::Result<Columns> find_columns(const CsvRow& header);

// `wanted`, or with a number behind it when that key is in use.
[[nodiscard]] std::string free_key(const std::set<std::string>& used, const std::string& wanted);

// How many header names are known: the delimiter that finds the most is the right one.
[[nodiscard]] int known_headers(const CsvRow& header);

// "A", "Z", "AA" as spreadsheets letter their columns; from 0.
[[nodiscard]] std::string column_letters(std::size_t column);

}  // namespace storage
