// storage/sheets/spreadsheet.h -- takes in yards, colonies or counts from a spreadsheet's CSV text.
//
// Pure: from a farm and a text come the events that bring the farm up to the sheet, and a report
// row by row. Good rows are taken, bad rows are named. Known things are found by name (yard; yard
// and colony; colony, day and method of a count), so a second reading gives no event. New ones get
// ids that follow from the sheet's words (sheet_farm.h), so that two tablets that read the same
// sheet have one farm of it. An empty cell says nothing and changes nothing. Columns that are not
// known go into the notes.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/status.h"
#include "engine/farm/farm.h"
#include "storage/disk/progress.h"
#include "storage/sheets/sheet_columns.h"

namespace storage {

enum class RowFate { Added, Changed, Same, Refused };

struct RowReport {
  int row = 0;  // as the spreadsheet numbers it: 1 is the header
  RowFate fate = RowFate::Same;
  std::string what;  // "colony B3 in Upper Field", "brood boxes: \"many\" is no whole number"
};

struct SheetReport {
  SheetSort sort = SheetSort::Yards;
  std::vector<std::string> columns;  // what each column was taken for
  std::vector<RowReport> rows;
  [[nodiscard]] int count(RowFate fate) const;
};

struct SheetReading {
  std::vector<engine::Body> events;  // to be stamped and appended in one transaction
  SheetReport report;
};

// `today` is the keeper's day: a count after the next day is refused. BadInput when the text is no
// CSV or its header does not say what it holds; the message does not name the file.
[[nodiscard]] engine::Result<SheetReading> read_spreadsheet(const engine::Farm& farm,
                                                            std::string_view text,
                                                            engine::Date today,
                                                            const Progress& progress = {});

// Lines for the keeper: the columns, then each row ("row 7: refused: ..."), then one of sums.
[[nodiscard]] std::string report_text(const SheetReport& report);

}  // namespace storage
