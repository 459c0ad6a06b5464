// storage/text/csv_out.h -- tables as CSV for people's spreadsheets: RFC 4180 (comma, CRLF,
// quotes).
//
// A text cell that a spreadsheet would take for a formula (it begins with = + - @, also in their
// full-width forms, a tab or a line end) gets an apostrophe before it, as spreadsheets themselves
// mark text; numbers stay numbers. One that begins so behind apostrophes of its own gets one more,
// so that without_mark() gives every text back as it was.
// Characters: UTF-8 without BOM; a NUL is left out.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/units.h"

namespace storage {

class CsvOut {
 public:
  void text(std::string_view cell);
  void number(std::int64_t cell);
  void tenths(std::int64_t tenths);  // 125 is 12.5
  void grams(engine::Mass mass);     // 1428 mg is 1.428
  void empty();
  void end_row();

  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  void plain(std::string_view cell);
  std::string bytes_;
  bool at_start_ = true;
};

// The text of a cell that CsvOut::text wrote, its quotes undone: without the apostrophe it was
// given.
[[nodiscard]] std::string_view without_mark(std::string_view cell);

}  // namespace storage
