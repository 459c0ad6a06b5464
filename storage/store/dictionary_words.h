// storage/store/dictionary_words.h -- the meanings of the data dictionary. Private to storage.
#pragma once
#include <string>
#include <string_view>

namespace storage {

struct FieldWords {
  std::string unit;     // where the type does not say it
  std::string meaning;  // empty: none is known
};

// Of a field: as that kind or part says it, else as it says everywhere.
[[nodiscard]] FieldWords field_words(std::string_view kind, std::string_view field);
// Of a kind or part; empty: none is known.
[[nodiscard]] std::string kind_words(std::string_view kind);

}  // namespace storage
