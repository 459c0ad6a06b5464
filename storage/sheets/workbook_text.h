// storage/sheets/workbook_text.h -- a sheet of a workbook (.xlsx, .ods) as text that
// read_spreadsheet takes.
//
// Values are taken, not how the cells show them: numbers with a point and no thousands marks, days
// as 2026-08-14, so that nobody's locale has a say. Formulas count as the value that the
// spreadsheet program worked out. Sources: ECMA-376 part 1 (Office Open XML, SpreadsheetML) and
// OpenDocument 1.3 part 3 (ISO/IEC 26300).
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/status.h"

namespace storage {

struct WorkbookText {
  std::string text;                 // cells between tabs, quoted as RFC 4180 has it
  std::string sheet;                // the name of the sheet that was read
  std::vector<std::string> others;  // names of the other sheets that are not hidden
};

// Do the bytes begin as a workbook does?
[[nodiscard]] bool is_workbook(std::string_view bytes);

// The sheet called `wanted`; without one the first that is not hidden and holds anything. BadInput:
// damaged, locked by a password, too large, no such sheet, or another kind of zip archive.
[[nodiscard]] engine::Result<WorkbookText> workbook_text(std::string_view bytes,
                                                         std::string_view wanted = {});

// A file of any of the kinds that `duskwalk read` takes: CSV text as it is (no sheet's name), a
// workbook's sheet as text. NotFound, or BadInput in a line that begins with the path.
[[nodiscard]] engine::Result<WorkbookText> read_sheet_file(const std::string& path,
                                                           std::string_view wanted = {});

}  // namespace storage
