// storage/sheets/sheet_rows.h -- one row of a spreadsheet: its cells by field, and what becomes of
// it. Private to storage.
#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "storage/sheets/cells.h"
#include "storage/sheets/sheet_farm.h"
#include "storage/sheets/spreadsheet.h"

namespace storage {

using Notes = std::vector<std::pair<std::string, std::string>>;  // key, text

// The cells of one row. The first cell that is wrong makes the row refused; wrong() says which.
class RowCells {
 public:
  RowCells(const Columns& columns, const CsvRow& row, char decimal_mark)
      : columns_(columns), row_(row), mark_(decimal_mark) {}

  [[nodiscard]] std::string_view text(Field f) const;
  // A name on one line; empty when the cell is.
  [[nodiscard]] std::string name(Field f);
  // The unset value: an empty cell, no such column, or a wrong one (then wrong() says so).
  [[nodiscard]] std::optional<int> whole_number(Field f, int low, int high);
  [[nodiscard]] std::optional<bool> yes(Field f);
  [[nodiscard]] std::optional<engine::Place> place();
  [[nodiscard]] std::optional<engine::Spot> spot();
  [[nodiscard]] std::string zone();
  [[nodiscard]] std::optional<engine::Date> date(DateOrder order);

  // The note cell (no key) and the cells of columns that are not known, by their keys.
  [[nodiscard]] Notes notes();

  void refuse(const std::string& why) {
    if (wrong_.empty()) wrong_ = why;
  }
  [[nodiscard]] const std::string& wrong() const { return wrong_; }
  [[nodiscard]] int number() const { return row_.number; }

 private:
  [[nodiscard]] std::optional<std::int64_t> decimal(Field f, int decimals, std::int64_t most);
  void refuse_cell(Field f, const std::string& why);

  const Columns& columns_;
  const CsvRow& row_;
  char mark_;
  std::string wrong_;
};

// The line that a note is kept as: "KEY: text". The notes' own cell stands as it is, unless it
// looks like such a line itself; then its key is "Notes".
[[nodiscard]] std::string note_line(const std::string& key, const std::string& text);

// `old` with the notes put in, one a line: of an unknown column the line with the same key is
// replaced; a note cell is added. A line that is there already stays as it is.
[[nodiscard]] std::string merged_note(std::string_view old, const Notes& notes);

// Does `note` hold this very line?
[[nodiscard]] bool has_line(std::string_view note, std::string_view line);

// Which row of this file gave a thing's field first ("brood boxes", "notes", "notes: Queen"). An
// empty cell gives nothing, so a later row may.
using Given = std::map<std::string, int>;

// What all rows of one sheet share.
struct Sheet {
  const Columns& columns;
  SheetFarm& farm;
  DateOrder dates = DateOrder::Unknown;
  engine::Date today{};
  char mark = '.';                     // between whole and decimals
  std::map<std::string, Given> given;  // by the folded name of a yard or colony
  std::map<SheetFarm::CountKey, int> counted;
};

[[nodiscard]] RowReport take_yard(Sheet& sheet, RowCells& row);
[[nodiscard]] RowReport take_colony(Sheet& sheet, RowCells& row);
[[nodiscard]] RowReport take_count(Sheet& sheet, RowCells& row);

[[nodiscard]] inline RowReport refused(const RowCells& row, std::string why) {
  return {row.number(), RowFate::Refused, std::move(why)};
}

}  // namespace storage
