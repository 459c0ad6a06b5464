// storage/text/csv_out.h -- tables as CSV for people's spreadsheets: RFC 4180 (comma, CRLF,
// quotes).
//
// Numbers are whole numbers, with their unit in the column's name: a decimal mark reads as a
// thousand's mark in half of the languages, so that 1.000 g opens as 1000 g there.
//
// A text cell that a spreadsheet would take for a formula (it begins with = + - @, also in their
// full-width forms, a tab or a line end), or for a number or day that it is not (digits with marks
// between them or zeros before them), gets an apostrophe before it, as spreadsheets themselves mark
// text. One that begins so behind apostrophes of its own gets one more, so that without_mark()
// gives every text back as it was. Not guarded are names of months ("May 1"), truth values and
// amounts of money: they are changed only where somebody asks for it in an import dialog.
// Characters: UTF-8 with a byte order mark, without which spreadsheets read the names in the
// character set of some country; a NUL is left out.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "storage/text/table_out.h"

namespace storage {

// U+FEFF in UTF-8.
inline constexpr std::string_view kByteOrderMark = "\xef\xbb\xbf";

class CsvOut : public TableOut {
 public:
  void name(std::string_view column) override { plain(column); }
  void text(std::string_view cell) override;
  void number(std::int64_t cell) override;
  void milligrams(engine::Mass mass) override;
  void tenths(std::int64_t tenths) override { number(tenths); }
  void day(const std::optional<engine::Date>& day) override;
  void as_it_is(std::string_view cell) override;
  void empty() override;
  void end_row() override;

  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  void plain(std::string_view cell);
  std::string bytes_ = std::string(kByteOrderMark);
  bool at_start_ = true;
};

// The text of a cell that CsvOut::text wrote, its quotes undone: without the apostrophe it was
// given.
[[nodiscard]] std::string_view without_mark(std::string_view cell);

}  // namespace storage
