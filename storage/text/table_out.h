// storage/text/table_out.h -- a table that is written cell by cell, in whatever form: CSV for
// machines and every program (csv_out.h), a workbook for people (storage/register/workbook.h).
//
// The first row has the columns' names; a name ends in the unit of its whole numbers ("dose_mg").
#pragma once
#include <cstdint>
#include <optional>
#include <string_view>

#include "engine/core/instant.h"
#include "engine/core/units.h"

namespace storage {

class TableOut {
 public:
  virtual ~TableOut() = default;
  virtual void name(std::string_view column) = 0;
  virtual void text(std::string_view cell) = 0;
  virtual void number(std::int64_t cell) = 0;
  virtual void milligrams(engine::Mass mass) = 0;
  virtual void tenths(std::int64_t tenths) = 0;
  virtual void day(const std::optional<engine::Date>& day) = 0;
  // A time, id or word of the program: every spreadsheet reads it as what it is.
  virtual void as_it_is(std::string_view cell) = 0;
  virtual void empty() = 0;
  virtual void end_row() = 0;
};

}  // namespace storage
