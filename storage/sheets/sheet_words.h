// storage/sheets/sheet_words.h -- the words that keepers head their columns with. Private to
// storage.
#pragma once
#include <optional>
#include <string_view>

#include "storage/sheets/sheet_columns.h"

namespace storage {

struct HeaderMeaning {
  std::optional<Field> field;  // none: not known, or in a unit that the field cannot have
  bool weak = false;           // gives way to a column with a stronger word
  int unit_tenth_mm = 10'000;  // of lengths: metres unless the header names another unit
};
[[nodiscard]] HeaderMeaning header_meaning(std::string_view text);

// "name", "id" and the like: the colony beside a yard, or the yard on a sheet of yards.
[[nodiscard]] bool is_name_header(std::string_view text);

}  // namespace storage
