#include "storage/store/data_dictionary.h"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <set>

#include "engine/events/event.h"
#include "storage/store/event_json.h"
#include "tests/support/any_body.h"

namespace data_dictionary_test {

TEST_CASE("every kind, part and field has its words") {
  const storage::DataDictionary all = storage::data_dictionary();
  CHECK(all.kinds.size() == std::variant_size_v<engine::AnyKind>);
  std::set<std::string> names;
  for (const auto* list : {&all.kinds, &all.parts})
    for (const storage::DictionaryEntry& entry : *list) {
      INFO(entry.name);
      CHECK_FALSE(entry.meaning.empty());
      CHECK(names.insert(entry.name).second);
      for (const storage::FieldEntry& field : entry.fields) {
        INFO(field.name);
        CHECK_FALSE(field.type.empty());
        CHECK_FALSE(field.meaning.empty());
        CHECK(field.meaning.find_first_of("|\n") == std::string::npos);  // a cell of a table
      }
    }
}

TEST_CASE("a whole number has a unit, or is a number of its own kind") {
  const storage::DataDictionary all = storage::data_dictionary();
  const std::set<std::string> plain{"order", "seq"};
  for (const auto* list : {&all.kinds, &all.parts})
    for (const storage::DictionaryEntry& entry : *list)
      for (const storage::FieldEntry& field : entry.fields) {
        INFO(entry.name, ".", field.name);
        if (field.type == "whole number" && !plain.contains(field.name))
          CHECK_FALSE(field.unit.empty());
      }
}

TEST_CASE("JOURNAL.md holds the dictionary as the program has it") {
  std::ifstream file(std::string(DUSKWALK_TESTS) + "/../storage/JOURNAL.md");
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  REQUIRE(text.find("## Data dictionary") != std::string::npos);
  INFO("write it anew: duskwalk help --dictionary");
  CHECK(text.ends_with(storage::dictionary_text()));
}

}  // namespace data_dictionary_test
