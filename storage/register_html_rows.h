// storage/register_html_rows.h -- the rows of one colony in the report.
#pragma once
#include <string>
#include <vector>

#include "engine/register/register.h"
#include "engine/register/words.h"

namespace storage {

using RowRefs = std::vector<const engine::RegisterRow*>;

// The parts that are not empty, with `between` between them.
[[nodiscard]] std::string lines_of(const std::vector<std::string>& parts, const char* between);

// In SI, and in the keeper's own unit when that is another.
[[nodiscard]] std::string weather_of(const engine::Conditions& c, engine::Units shown);

// One <tbody>: its rows hold together on paper. `rows` are of one colony, and not empty.
[[nodiscard]] std::string colony_html(const RowRefs& rows, engine::Units shown);

}  // namespace storage
