// storage/register/register_tables.h -- the columns of the register, the stock and the day's log,
// whatever form they are written in. Private to storage.
#pragma once
#include <span>

#include "engine/register/day.h"
#include "engine/register/register.h"
#include "engine/register/stock.h"
#include "storage/text/table_out.h"

namespace storage {

// Each writes the names of the columns and a row for each of `rows`.
void register_table(TableOut& out, std::span<const engine::RegisterRow> rows, engine::Units shown);
void stock_table(TableOut& out, std::span<const engine::StockRow> rows);
void day_table(TableOut& out, std::span<const engine::DayRow> rows);

}  // namespace storage
