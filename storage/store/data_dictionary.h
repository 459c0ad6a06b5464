// storage/store/data_dictionary.h -- what every kind of entry says, field by field, in words: for
// whoever has a journal or a bundle and not this program. Kinds, fields and types come from the
// engine's fields() lists; the meanings stand in dictionary_words.cpp.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace storage {

struct FieldEntry {
  std::string name;
  std::string type;     // "whole number", "text", "id", "one of: a, b", "list of ids"
  std::string unit;     // "mg"; empty where there is none
  std::string meaning;  // empty: nobody has said it, which a test finds
  bool may_be_missing = false;
};

// A kind of entry, or a part that several kinds have.
struct DictionaryEntry {
  std::string name;
  std::string meaning;
  std::vector<FieldEntry> fields;
};

struct DataDictionary {
  std::vector<DictionaryEntry> kinds;  // in the order of engine::AnyKind
  std::vector<DictionaryEntry> parts;  // objects within the fields
};

[[nodiscard]] DataDictionary data_dictionary();

// As a text of Markdown tables, which a person reads in any editor.
[[nodiscard]] std::string dictionary_text();

}  // namespace storage
