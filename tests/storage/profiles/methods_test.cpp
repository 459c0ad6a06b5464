#include "storage/profiles/methods.h"

#include <doctest/doctest.h>

#include "tests/support/profile_text.h"

namespace methods_test {

namespace {

const std::string kShipped = DUSKWALK_ASSETS "/methods";

std::string shipped_text(const std::string& id) { return fixture::profile_text(kShipped, id); }
using fixture::with;

}  // namespace

TEST_CASE("every shipped method loads, says to check the label and where its numbers come from") {
  const auto shelf = storage::load_methods({kShipped});
  REQUIRE(shelf.ok());
  CHECK(shelf.value().refused.empty());
  CHECK(shelf.value().profiles.size() == 12);
  for (const auto& p : shelf.value().profiles) {
    INFO(p.id);
    CHECK(p.rules.check_your_label == "Check the label in your hand: it decides.");
    CHECK(p.numbers.size() >= 2);
    for (const auto& n : p.numbers) CHECK_FALSE((n.source.empty() || n.confidence.empty()));
  }
}

// IRAC mode of action classification, from memory: amitraz 19, tau-fluvalinate and flumethrin 3A,
// coumaphos 1B; the acids, thymol and hop acids are not classified.
TEST_CASE("the shipped methods carry their mode of action") {
  struct Row {
    std::string id, want;
  };
  const Row rows[] = {{"amitraz-strips", "19"},
                      {"pyrethroid-strips", "3A"},
                      {"coumaphos-strips", "1B"},
                      {"oxalic-vapor", ""},
                      {"oxalic-dribble", ""},
                      {"formic-acid", ""},
                      {"thymol", ""},
                      {"hop-acids", ""}};
  for (const Row& r : rows) {
    INFO(r.id);
    const auto p = storage::parse_method(shipped_text(r.id));
    REQUIRE(p.ok());
    CHECK(p.value().rules.moa_class == r.want);
  }
}

TEST_CASE("methods carry what labels limit besides the dose") {
  const auto rules = [](const char* id) {
    return storage::parse_method(shipped_text(id)).value().rules;
  };
  const auto formic = rules("formic-acid");  // 10 to 29.5 C, 7 days, 6 brood frames, entrance open
  CHECK(formic.least == engine::Temperature{100});
  CHECK(formic.most == engine::Temperature{295});
  CHECK(formic.days_in_hive == 7);
  CHECK(formic.least_frames == 6);
  CHECK(formic.entrance_open == true);
  CHECK(rules("thymol").most == engine::Temperature{300});
  CHECK(rules("amitraz-strips").wait_from == engine::CountedFrom::Removal);
  // Three days were no label's.
  CHECK_FALSE(rules("oxalic-vapor").min_interval_days);
  // Of a new method little is known, and that is said.
  CHECK_FALSE(rules("dsrna").uses_per_year);
}

TEST_CASE("a wrong field of a method is named") {
  struct Row {
    std::string from, to, says;
  };
  const Row rows[] = {
      {"\"moa_class\": \"not", "\"moa_class\": \"maybe not", "moa_class: must be an IRAC group"},
      {"\"uses_per_year\": 1", "\"uses_per_year\": -1", "uses_per_year: must be 0"},
      {"\"uses_per_year\": 1", "\"use_per_year\": 1", "use_per_year: is no field"},
      {"\"brood\": \"none\"", "\"brood\": \"no\"", "brood: must be one of"},
      {"\"active\": \"oxalic acid\",", "", "active: is missing"},
      {"\"id\": \"oxalic-dribble\"", "\"id\": \"../x\"", "id: must be small letters"},
  };
  for (const Row& r : rows) {
    INFO(r.to);
    const auto p = storage::parse_method(with(shipped_text("oxalic-dribble"), r.from, r.to));
    CHECK_MESSAGE(p.status().message().find(r.says) != std::string::npos, p.status().message());
  }
}

}  // namespace methods_test
