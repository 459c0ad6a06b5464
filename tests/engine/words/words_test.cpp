#include "engine/words/words.h"

#include <set>

#include "tests/support/register_fixture.h"

namespace words_test {

using namespace engine;
using namespace fixture;

namespace {

template <class E>
void check_phrases(const std::string& what) {
  INFO(what);
  std::set<std::string> seen;
  const std::size_t count = enum_names(E{}).size();
  for (std::size_t i = 0; i < count; ++i) {
    const std::string phrase = words(static_cast<E>(i));
    CHECK_FALSE(phrase.empty());
    CHECK(phrase.find('_') == std::string::npos);
    seen.insert(phrase);
  }
  CHECK(seen.size() == count);
}

}  // namespace

TEST_CASE("every closed word has a phrase of its own") {
  check_phrases<Flight>("flight");
  check_phrases<PassReason>("pass reason");
  check_phrases<MishapKind>("mishap");
  check_phrases<Protection>("protection");
  check_phrases<KitSort>("kit sort");
  check_phrases<Supers>("supers");
  check_phrases<CountMethod>("count method");
  check_phrases<Method>("method");
  check_phrases<Phase>("phase");
  check_phrases<ComeBackWhy>("come back");
  check_phrases<Basis>("basis");
  check_phrases<Weekday>("weekday");
  check_phrases<LossWhy>("loss");
  check_phrases<BroodFact>("brood");
  check_phrases<Theme>("theme");
  check_phrases<MassUnit>("mass unit");
  check_phrases<TemperatureUnit>("temperature unit");
}

TEST_CASE("every refusal is a sentence of its own") {
  std::set<std::string> seen;
  const std::size_t count = enum_names(Refusal{}).size();
  CHECK(std::string(sentence(Refusal::None)).empty());
  for (std::size_t i = 1; i < count; ++i) {
    const std::string line = sentence(static_cast<Refusal>(i));
    INFO(line);
    CHECK(line.back() == '.');
    CHECK(std::isupper(static_cast<unsigned char>(line.front())) != 0);
    seen.insert(line);
  }
  CHECK(seen.size() == count - 1);
}

TEST_CASE("a refusal's sentence belongs to it") {
  struct Row {
    std::string name;
    Refusal refusal;
    std::string part;
  };
  const Row rows[] = {
      {"last", Refusal::StrikesAStrike, "strike cannot be struck"},
      {"gate", Refusal::ProtectionMissing, "respirator"},
      {"busy vaporizer", Refusal::VaporizerInUse, "another colony"},
      {"seq", Refusal::SeqOutOfStep, "out of step"},
      {"paused", Refusal::WalkIsPaused, "resume"},
      {"already treated", Refusal::AlreadyTreated, "passed over"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(std::string(sentence(r.refusal)).find(r.part) != std::string::npos);
  }
}

// 1 oz = 28.349523125 g (international avoirdupois, exact): 2 g = 0.0705 oz.
TEST_CASE("a mass says what it is a mass of, in either unit") {
  CHECK(words(Mass{2000}, Basis::Dihydrate, kSi) == "2 g dihydrate");
  const Units imperial{MassUnit::Ounce, TemperatureUnit::Fahrenheit};
  CHECK(words(Mass{2000}, Basis::Product, imperial) == "0.071 oz product");
}

TEST_CASE("conditions are one line, in either unit") {
  const Conditions c{Temperature{125}, Flight::Some, 270, 32, true};
  CHECK(words(c, kSi) == "12.5 °C, some bees flying, wind 3.2 m/s from the west (270°), rain");
  CHECK(words(c, {MassUnit::Gram, TemperatureUnit::Fahrenheit}).substr(0, 6) == "55 °F");
  CHECK(words(Conditions{}, kSi) == "no bees flying, no rain");
}

TEST_CASE("a wind's direction is the nearest of eight") {
  struct Row {
    std::string name;
    int degrees;
    std::string want;
  };
  const Row rows[] = {{"0", 0, "the north"},          {"22", 22, "the north"},
                      {"23", 23, "the north-east"},   {"90", 90, "the east"},
                      {"337", 337, "the north-west"}, {"338", 338, "the north"},
                      {"360", 360, "the north"}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(compass(r.degrees) == r.want);
  }
}

TEST_CASE("a reason to come back says which one") {
  CHECK(words(ComeBackReason{ComeBackWhy::ShortSeal, {}, {}, Ms{200'000}}) == "short seal (3:20)");
  CHECK(words(ComeBackReason{ComeBackWhy::PassedOver, PassReason::DeadOut, {}, {}}) ==
        "passed over: dead-out");
  CHECK(words(ComeBackReason{ComeBackWhy::HadMishap, {}, MishapKind::Dropped, {}}) ==
        "mishap: vaporizer dropped");
}

TEST_CASE("what happened is one line with the colony first") {
  const Farm farm = evening().farm;
  struct Row {
    std::string name;
    Body body;
    std::string want;
  };
  const Row rows[] = {
      {"set", VaporizerSet{kWalk, colony(1), kVaporizer, {}, kLot, {2000}, 1, false},
       "A1: 2 g dihydrate set, vaporizer 1, lot 24-118"},
      {"covered", ColonyCovered{kWalk, colony(2), kCloth},
       "A2: vaporizer lifted, covered with cloth red"},
      {"kit that says its sort", ColonyCovered{kWalk, colony(2), kSecondCloth},
       "A2: vaporizer lifted, covered with Cloth blue"},
      {"uncovered", ColonyUncovered{kWalk, colony(2)}, "A2: entrance open"},
      {"passed", ColonyPassedOver{kWalk, colony(4), PassReason::DeadOut, "no bees"},
       "A4: passed over, dead-out: no bees"},
      {"yard flight", BeesFlying{kWalk, {}, Flight::Heavy}, "Thistle Bank: bees flying heavily"},
      {"mishap of nobody", Mishap{kWalk, {}, MishapKind::Spill, ""},
       "Thistle Bank: mishap, acid spilled"},
      {"kit", BatteryChanged{kVaporizer, kCloth, true},
       "vaporizer 1: cloth red put in, the one before was empty"},
      {"unknown colony", NoteWritten{{}, colony(99), "hm"}, "unknown colony: note: hm"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(describe(r.body, farm) == r.want);
  }
}

TEST_CASE("every kind of event has a line, even an empty one") {
  const Farm farm = evening().farm;
  std::set<std::string> kinds;
  for (const Entry& e : farm.log) kinds.insert(kind(e.event.body));
  for (const char* k : {"yard_changed",    "colony_changed",    "colony_lost",     "kit_changed",
                        "battery_charged", "vaporizer_cleaned", "filter_changed",  "count_taken",
                        "course_planned",  "course_changed",    "course_ended",    "walk_paused",
                        "walk_resumed",    "come_back_settled", "setup_changed",   "yard_lost",
                        "courses_planned", "free_evenings_set", "evening_changed", "evening_lost",
                        "drive_time_set",  "brood_noted",       "entered_late",    "acid_disposed",
                        "entry_corrected", "air_expected"})
    kinds.insert(k);
  for (const std::string& k : kinds) {
    INFO(k);
    const auto body = body_of_kind(k);
    REQUIRE(body.has_value());
    CHECK_FALSE(describe(*body, farm).empty());
  }
}

TEST_CASE("a strike names what it took back and why") {
  const Farm farm = evening().farm;
  std::string line;
  for (const Entry& e : farm.log)
    if (std::holds_alternative<EntryStruck>(e.event.body)) line = describe(e.event.body, farm);
  INFO(line);
  CHECK(line.starts_with("A6: struck entry 000000d1-"));
  CHECK(line.find("(1 g dihydrate set, vaporizer 1, lot 24-118): tapped the wrong hive") !=
        std::string::npos);
}

TEST_CASE("tablets are told apart by the random end of their id") {
  DeviceId one = kTabletOfRegister, two = kTabletOfRegister;
  two.bytes[15] = 0xd2;
  CHECK(short_device(one) == "000000d1");
  CHECK(short_device(one) != short_device(two));
  CHECK(short_ref({one, 17}) == "000000d1-17");
}

}  // namespace words_test
