// storage/register/register_html_rows.h -- the rows of one colony in the report.
#pragma once
#include <string>

#include "storage/register/register_cells.h"

namespace storage {

// The parts that are not empty, with `between` between them.
[[nodiscard]] std::string lines_of(const std::vector<std::string>& parts, const char* between);

// One <tbody>: its rows hold together on paper. `rows` are of one colony, and not empty.
[[nodiscard]] std::string colony_html(const RowRefs& rows, engine::Units shown);

}  // namespace storage
