// storage/sheets/sheet_writer.h -- cells of a workbook's sheet as CSV text, row by row. Private to
// storage.
//
// Empty cells and rows are written only once something follows them: a workbook may say "a million
// empty rows" in one word.
#pragma once
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

class SheetWriter {
 public:
  // Both from 0. A cell that is before or at the last one, or too far, is left out and wrong() says
  // so.
  void cell(std::size_t row, std::size_t column, std::string_view text);

  [[nodiscard]] bool empty() const { return text_.empty(); }
  // Why the sheet cannot be taken; empty: it can.
  [[nodiscard]] const std::string& wrong() const { return wrong_; }
  [[nodiscard]] std::string text() &&;

 private:
  std::string text_, wrong_;
  std::size_t row_ = 0, column_ = 0;  // where the text ends
  bool filled_ = false;               // and whether that cell has its text
};

// A number as a workbook stores it (binary, in 17 digits) with the 15 digits that a spreadsheet
// shows, without exponent: "0.1", "22", "-1.5". Text that is no number stays as it is.
[[nodiscard]] std::string plain_number(std::string_view stored);

}  // namespace storage
