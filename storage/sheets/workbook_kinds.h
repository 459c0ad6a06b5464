// storage/sheets/workbook_kinds.h -- the two kinds of workbook, each read by a file of its own.
// Private to storage.
#pragma once
#include "storage/sheets/workbook_parts.h"
#include "storage/sheets/workbook_text.h"

namespace storage {

[[nodiscard]] engine::Result<WorkbookText> read_xlsx(const WorkbookParts& parts,
                                                     std::string_view wanted);
[[nodiscard]] engine::Result<WorkbookText> read_ods(const WorkbookParts& parts,
                                                    std::string_view wanted);

// The line for a workbook that lacks what was wanted: a sheet of that name, or any with a cell.
[[nodiscard]] engine::Status no_such_sheet(std::string_view wanted,
                                           const std::vector<std::string>& there);

}  // namespace storage
