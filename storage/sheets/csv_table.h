// storage/sheets/csv_table.h -- the text of a CSV file (RFC 4180 and its relatives) as rows of
// cells.
//
// Takes UTF-8 with or without a byte order mark, CRLF, LF or CR, quotes as RFC 4180 has them;
// ragged rows are kept as they are. Blank rows are left out but counted, so that a row's number is
// the one the spreadsheet shows (1 is the header). Cells lose the spaces at their ends. What a cell
// says is text and nothing else: no formula is ever worked out. Bounded: see the limits.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/status.h"

namespace storage {

inline constexpr std::size_t kLargestSheet = std::size_t{64} << 20;  // bytes
// What common spreadsheet programs can hold: 32,767 characters a cell, 1,048,576 rows.
inline constexpr std::size_t kLongestCell = 32'767;  // bytes
inline constexpr std::size_t kMostColumns = 500;
inline constexpr int kMostRows = 1'048'576;

struct CsvRow {
  int number = 0;
  std::vector<std::string> cells;
};

struct CsvTable {
  char delimiter = ',';
  std::vector<CsvRow> rows;  // not blank; the first is the header
  int cut_at = 0;            // from this row on nothing could be read; 0: all was read
  std::string cut_why;
};

// Why `text` cannot be the text of a CSV file (a workbook, UTF-16, not UTF-8, too large), as one
// line with what to do; empty when it can.
[[nodiscard]] std::string not_csv(std::string_view text);

// The table, split at `delimiter`. `text` has passed not_csv. A quote that is never closed, an
// endless cell or row cuts the table there.
[[nodiscard]] CsvTable parse_csv(std::string_view text, char delimiter);

// Reads the whole file. NotFound, or BadInput when it is larger than kLargestSheet.
[[nodiscard]] engine::Result<std::string> read_sheet(const std::string& path);

}  // namespace storage
