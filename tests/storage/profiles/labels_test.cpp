#include "storage/profiles/labels.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "tests/support/profile_text.h"

namespace labels_test {

namespace {

namespace fs = std::filesystem;

const std::string kShipped = DUSKWALK_ASSETS "/labels";

// A folder of its own that goes away again.
struct Folder {
  fs::path path;
  explicit Folder(const std::string& name)
      : path(fs::temp_directory_path() / ("duskwalk-labels-" + name)) {
    fs::remove_all(path);
    fs::create_directories(path);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path); }
  void put(const std::string& file, const std::string& text) const {
    std::ofstream(path / file, std::ios::binary) << text;
  }
};

std::string shipped_text(const std::string& id) { return fixture::profile_text(kShipped, id); }
using fixture::with;

storage::LabelProfile shipped(const std::string& id) {
  const auto shelf = storage::load_labels({kShipped});
  REQUIRE(shelf.ok());
  const auto* found = storage::find_label(shelf.value(), id);
  REQUIRE(found != nullptr);
  return *found;
}

}  // namespace

TEST_CASE("every shipped profile loads, says to check the label and where its numbers come from") {
  const auto shelf = storage::load_labels({kShipped});
  REQUIRE(shelf.ok());
  CHECK(shelf.value().refused.empty());
  CHECK(shelf.value().profiles.size() == 6);
  for (const auto& p : shelf.value().profiles) {
    INFO(p.id);
    CHECK(p.check_your_label == "Check the label in your hand: it decides.");
    CHECK(p.numbers.size() >= 8);
    for (const auto& n : p.numbers) CHECK_FALSE((n.source.empty() || n.confidence.empty()));
    CHECK(p.rules.profile == p.id);
    CHECK_FALSE(p.rules.cartridge.empty());
  }
}

// Dose of the older US label: Front. Bee Sci. 2024, 10.3389/frbee.2024.1442030 (20 g = 20 times).
TEST_CASE("the older US label gives one gram a brood chamber and no more") {
  const auto p = shipped("us-2015");
  CHECK(engine::prompted_dose(p.rules, 2).mg == 2000);
  CHECK(engine::over_label(p.rules, {2001}, 2));
  CHECK(p.rules.supers == engine::Supers::Forbidden);
}

// US federal label as amended on 24 June 2025, second-hand: up to 4 g a brood chamber.
TEST_CASE("the amended US label prompts one gram a box and allows four") {
  const auto p = shipped("us-2025");
  CHECK(engine::prompted_dose(p.rules, 2).mg == 2000);
  CHECK_FALSE(engine::over_label(p.rules, {8000}, 2));
  CHECK(engine::over_label(p.rules, {8001}, 2));
}

// UK summary of product characteristics, September 2015: 886 mg dihydrate a gram (= 632.7 mg
// anhydrous); 2.3 g of powder a hive = 2.04 g dihydrate = 1.46 g anhydrous.
TEST_CASE("the UK and EU powder gives 2.3 g of product whatever the boxes") {
  const auto p = shipped("uk-eu-powder");
  CHECK(engine::prompted_dose(p.rules, 1).mg == 2300);
  CHECK(engine::prompted_dose(p.rules, 3).mg == 2300);
  const auto acid = engine::dihydrate(p.rules, {2300});
  REQUIRE(acid);
  CHECK(acid->mg == 2038);
  CHECK(engine::anhydrous(*acid).mg == 1456);
  CHECK(p.rules.supers == engine::Supers::Forbidden);
}

// A registrant's note of 2021 and a State extension article of 10 March 2021, second-hand.
TEST_CASE("the US label between 2021 and 2025 gives one gram and allows supers") {
  const auto p = shipped("us-2021");
  CHECK(engine::prompted_dose(p.rules, 2).mg == 2000);
  CHECK(engine::over_label(p.rules, {2001}, 2));
  CHECK(p.rules.supers == engine::Supers::Allowed);
  REQUIRE(p.rules.limits);
  CHECK(p.rules.limits->uses_per_year == 0);  // read: no number a year
  CHECK_FALSE(p.rules.limits->min_interval_days);
}

TEST_CASE("the UK and EU powder is given once a year, with brood absent or least") {
  const auto p = shipped("uk-eu-powder");
  REQUIRE(p.rules.limits);
  CHECK(p.rules.limits->uses_per_year == 1);
  CHECK(p.rules.limits->brood == engine::BroodNeed::LittleOrNone);
}

// APVMA permit PER94609 of November 2024: the grams were not seen.
TEST_CASE("a dose that nobody knows is asked for, not guessed") {
  const auto p = shipped("australia-permit");
  CHECK(p.rules.per_brood_box.mg == 0);
  CHECK(engine::what_is_wrong(p.rules).starts_with("per_brood_box"));  // cannot be used as it is
  CHECK(p.rules.supers == engine::Supers::Allowed);
  const auto both = storage::parse_label(
      with(shipped_text("australia-permit"), "\"basis\"", "\"per_brood_box_mg\": 1000, \"basis\""));
  CHECK(both.status().message().find("dose_unknown") != std::string::npos);
}

TEST_CASE("the Canadian profile says that it was not verified") {
  const auto p = shipped("canada-unverified");
  CHECK(p.name.find("NOT VERIFIED") != std::string::npos);
  CHECK(engine::prompted_dose(p.rules, 1).mg == 1000);
  CHECK(engine::prompted_dose(p.rules, 2).mg == 2000);
  CHECK(engine::prompted_dose(p.rules, 3).mg == 2000);
}

TEST_CASE("a wrong field is named") {
  struct Row {
    std::string from, to, says;
  };
  const Row rows[] = {
      {"\"per_brood_box_mg\": 1000", "\"per_brood_box_mg\": 0",
       "per_brood_box: grams must be above"},
      {"\"per_brood_box_mg\": 1000", "\"per_brood_box_mg\": 20001",
       "per_brood_box_mg: is above 10 g"},
      {"\"per_brood_box_mg\": 1000", "\"per_brood_box_mg\": \"1 g\"",
       "per_brood_box_mg: must be a whole"},
      {"\"per_brood_box_mg\": 1000", "\"per_brood_box_mg\": 1.5",
       "per_brood_box_mg: must be a whole"},
      {"\"most_per_brood_box_mg\": 1000", "\"most_per_brood_box_mg\": 1000001",
       "most_per_brood_box_mg: is above 1 kg"},
      {"\"most_per_brood_box_mg\": 1000", "\"most_per_brood_box_mg\": 9000000000000000000",
       "most_per_brood_box_mg: must be at most"},
      {"\"most_per_brood_box_mg\": 1000", "\"most_brood_box_mg\": 1000",
       "most_brood_box_mg: is no field"},
      {"\"supers\": \"forbidden\"", "\"supers\": \"maybe\"", "supers: must be one of"},
      {"\"basis\": \"dihydrate\"", "\"basis\": \"product\"", "dihydrate_per_gram_mg: is missing"},
      {"\"seal_goal_s\": 600", "\"seal_goal_s\": 170", "seal_least: must be 0 to the seal goal"},
      {"\"seal_goal_s\": 600", "\"seal_goal_s\": 7200", "seal_goal: must be 1 to 3600 s"},
      {"\"checked\": \"2026", "\"checked\": \"26", "checked: must be a day"},
      {"\"region\": \"United States\",", "", "region: is missing"},
      {"\"id\": \"us-2015\"", "\"id\": \"../us\"", "id: must be small letters"},
      {"\"cautions\": [", "\"cautions\": [4,", "cautions[0]: must be text"},
      {"\"confidence\"", "\"sure\"", "confidence: is missing"},
      {"\"per_brood_box_mg\": 1000,", "", "per_brood_box_mg: is missing"},
      {"\"supers\"", "\"uses_per_year\": -1, \"supers\"", "uses_per_year: must be 0 to 366"},
      {"\"supers\"", "\"use_per_year\": 1, \"supers\"", "use_per_year: is no field"},
  };
  for (const Row& r : rows) {
    INFO(r.to);
    const auto p = storage::parse_label(with(shipped_text("us-2015"), r.from, r.to));
    CHECK(p.status().code() == engine::Code::BadInput);
    CHECK_MESSAGE(p.status().message().find(r.says) != std::string::npos, p.status().message());
  }
}

TEST_CASE("a bad file is named and left out, the others load") {
  const Folder folder("bad");
  folder.put("a.json", shipped_text("us-2015"));
  folder.put("b.json", "{ not json");
  folder.put("c.json", with(shipped_text("us-2025"), "4000", "-1"));
  folder.put("d.json", std::string(300 * 1024, ' '));
  folder.put("notes.txt", "no profile");
  const auto shelf = storage::load_labels({folder.path.string()});
  REQUIRE(shelf.ok());
  CHECK(shelf.value().profiles.size() == 1);
  REQUIRE(shelf.value().refused.size() == 3);
  CHECK(shelf.value().refused[0].find("b.json: is no JSON object") != std::string::npos);
  CHECK(shelf.value().refused[1].find("c.json: most_per_brood_box") != std::string::npos);
  CHECK(shelf.value().refused[2].find("d.json: is larger") != std::string::npos);
}

TEST_CASE("the keeper's own file replaces the shipped profile of the same id") {
  const Folder mine("mine");
  mine.put("any-name.json",
           with(shipped_text("us-2015"), "\"withdrawal_days\": 0", "\"withdrawal_days\": 14"));
  const auto shelf = storage::load_labels({kShipped, mine.path.string(), "/no/such/folder"});
  REQUIRE(shelf.ok());
  CHECK(shelf.value().profiles.size() == 6);
  CHECK(storage::find_label(shelf.value(), "us-2015")->rules.withdrawal_days == 14);
}

// A shipped profile may allow more than the keeper's own label: it must not step in for it.
TEST_CASE("an own file with a mistake withholds the shipped profile of its id or name") {
  struct Row {
    std::string file, text;
  };
  const std::string good = shipped_text("us-2025");
  const Row rows[] = {
      {"any-name.json", with(good, "\"per_brood_box_mg\": 1000", "\"per_brood_box_mg\": 0")},
      {"any-name.json", with(good, "\"supers\"", "\"super\"")},
      {"any-name.json", good.substr(0, good.size() / 2)},
      {"us-2025.json", "{ not json"},
      {"us-2025.json", ""},
  };
  for (const Row& r : rows) {
    INFO(r.file << ": " << r.text.substr(0, 60));
    const Folder mine("typo");
    mine.put(r.file, r.text);
    const auto shelf = storage::load_labels({kShipped, mine.path.string()});
    REQUIRE(shelf.ok());
    CHECK(storage::find_label(shelf.value(), "us-2025") == nullptr);
    CHECK(storage::find_label(shelf.value(), "us-2015") != nullptr);
    REQUIRE(shelf.value().refused.size() == 1);
    const std::string& line = shelf.value().refused[0];
    CHECK(line.find(r.file) != std::string::npos);
    CHECK(line.find("shipped profile \"us-2025\" is not offered") != std::string::npos);
  }
}

TEST_CASE("an own file with a mistake withholds no own file that is right") {
  const Folder mine("both");
  mine.put("mine.json",
           with(shipped_text("us-2025"), "\"withdrawal_days\": 0", "\"withdrawal_days\": 14"));
  mine.put("us-2025.json", "{ not json");
  const auto shelf = storage::load_labels({kShipped, mine.path.string()});
  REQUIRE(shelf.ok());
  REQUIRE(storage::find_label(shelf.value(), "us-2025") != nullptr);
  CHECK(storage::find_label(shelf.value(), "us-2025")->rules.withdrawal_days == 14);
  CHECK(shelf.value().refused.size() == 1);
}

TEST_CASE("a shipped folder that is not there is said") {
  CHECK(storage::load_labels({"/no/such/folder"}).status().code() == engine::Code::NotFound);
}

}  // namespace labels_test
