#include "storage/language/system_language.h"

#include <doctest/doctest.h>

namespace system_language_test {

// The order of the variables is that of the GNU gettext manual, from memory.
TEST_CASE("the language is the one that the system's variables ask for first") {
  struct Row {
    std::string name;
    storage::Environment environment;
    std::vector<std::string> wanted;
  };
  const std::vector<Row> rows{
      {"nothing set", {}, {}},
      {"LANG alone", {{"LANG", "es_MX.UTF-8"}}, {"es"}},
      {"LC_MESSAGES before LANG", {{"LANG", "es_ES"}, {"LC_MESSAGES", "fr_FR"}}, {"fr"}},
      {"LC_ALL before both",
       {{"LANG", "es_ES"}, {"LC_MESSAGES", "fr_FR"}, {"LC_ALL", "de_DE@euro"}},
       {"de"}},
      {"an empty one counts as not set", {{"LC_ALL", ""}, {"LANG", "es"}}, {"es"}},
      {"LANGUAGE is a list",
       {{"LANGUAGE", "ca:es_AR:fr"}, {"LANG", "en_US.UTF-8"}},
       {"ca", "es", "fr", "en"}},
      {"LC_ALL=C is English", {{"LANGUAGE", "es"}, {"LC_ALL", "C"}}, {"en"}},
      {"C.UTF-8 leaves it to LANGUAGE", {{"LANGUAGE", "es"}, {"LANG", "C.UTF-8"}}, {"es"}},
      {"what is no code is passed over", {{"LANGUAGE", "::../x:es"}}, {"es"}},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    CHECK(storage::wanted_languages(row.environment) == row.wanted);
  }
}

}  // namespace system_language_test
