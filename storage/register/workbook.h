// storage/register/workbook.h -- the keeper's copy: day, register and stock as one workbook
// (ISO/IEC 29500, .xlsx), made by libxlsxwriter. Numbers are numbers in the units that people use
// (g, °C, m/s), days are days, everything else is text; heads stay in sight and have filters. The
// long tables of the CSV files say the same for machines.
#pragma once
#include <string>
#include <vector>

#include "storage/register/register_files.h"

namespace storage {

// So many rows of each table at most; a line below says that there are more. Enough for an evening
// or a season of a keeper, and little enough for a tablet.
inline constexpr std::size_t kMostWorkbookRows = 50'000;

// The bytes of the file; the same for the same rows. Empty when it could not be made.
[[nodiscard]] std::string workbook(const std::vector<engine::DayRow>& day,
                                   const std::vector<engine::RegisterRow>& rows,
                                   const RegisterHead& head);

}  // namespace storage
