#include "engine/method/method.h"

#include <algorithm>

#include "tests/support/evening.h"

namespace method_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}

// Rules for tests, not advice.
MethodRules strict() {
  MethodRules r;
  r.id = "strict";
  r.method = Method::Dribble;
  r.supers = Supers::Forbidden;
  r.brood = BroodNeed::None;
  r.least = Temperature{50};
  r.most = Temperature{250};
  r.uses_per_year = 2;
  r.min_interval_days = 7;
  r.withdrawal_days = 14;
  return r;
}

MethodRules strips(const char* id, const char* moa) {
  MethodRules r;
  r.id = id;
  r.method = Method::Strip;
  r.moa_class = moa;
  r.supers = Supers::Allowed;
  r.brood = BroodNeed::Any;
  r.uses_per_year = r.min_interval_days = 0;  // read: the label sets none
  r.days_in_hive = 42;
  return r;
}

MethodSituation fine() {
  return {day(14), false, BroodState::None, AirKnown{Temperature{120}}, 0, {}, nullptr};
}

bool has(const MethodCheck& c, MethodWhy why) {
  return std::any_of(c.reasons.begin(), c.reasons.end(),
                     [&](const MethodReason& r) { return r.why == why; });
}

}  // namespace

TEST_CASE("a method may be used when nothing of its rules speaks against it") {
  struct Row {
    std::string name;
    void (*spoil)(MethodSituation&);
    MethodVerdict want;
    std::optional<MethodWhy> why;
  };
  const Row rows[] = {
      {"fine", [](MethodSituation&) {}, MethodVerdict::MayUse, {}},
      {"supers on", [](MethodSituation& s) { s.supers_on = true; }, MethodVerdict::NotNow,
       MethodWhy::SupersOn},
      {"brood", [](MethodSituation& s) { s.brood = BroodState::Present; }, MethodVerdict::NotNow,
       MethodWhy::BroodPresent},
      {"brood not known", [](MethodSituation& s) { s.brood = BroodState::Unknown; },
       MethodVerdict::CheckLabel, MethodWhy::BroodUnknown},
      {"at the least",
       [](MethodSituation& s) { s.air = AirKnown{Temperature{50}}; },
       MethodVerdict::MayUse,
       {}},
      {"too cold", [](MethodSituation& s) { s.air = AirKnown{Temperature{49}}; },
       MethodVerdict::NotNow, MethodWhy::TooCold},
      {"at the most",
       [](MethodSituation& s) { s.air = AirKnown{Temperature{250}}; },
       MethodVerdict::MayUse,
       {}},
      {"too hot", [](MethodSituation& s) { s.air = AirKnown{Temperature{251}}; },
       MethodVerdict::NotNow, MethodWhy::TooHot},
      {"no thermometer", [](MethodSituation& s) { s.air.reset(); }, MethodVerdict::CheckLabel,
       MethodWhy::TemperatureUnknown},
      {"once", [](MethodSituation& s) { s.uses_this_year = 1; }, MethodVerdict::MayUse, {}},
      {"twice", [](MethodSituation& s) { s.uses_this_year = 2; }, MethodVerdict::NotNow,
       MethodWhy::UsedUp},
      {"six days ago", [](MethodSituation& s) { s.last_use = day(8); }, MethodVerdict::NotNow,
       MethodWhy::TooSoon},
      {"a week ago", [](MethodSituation& s) { s.last_use = day(7); }, MethodVerdict::MayUse, {}},
  };
  for (const Row& row : rows) {
    INFO(row.name);
    MethodSituation now = fine();
    row.spoil(now);
    const MethodCheck got = check(strict(), now);
    CHECK(got.verdict == row.want);
    if (row.why) CHECK(has(got, *row.why));
    CHECK(has(got, MethodWhy::Withdrawal));  // said even when it is zero
  }
}

TEST_CASE("what the rules do not say is asked of the label, never taken as a yes") {
  MethodRules r = strict();
  r.supers = Supers::Unknown;
  MethodSituation now = fine();
  now.supers_on = true;
  CHECK(check(r, now).verdict == MethodVerdict::CheckLabel);
}

TEST_CASE(
    "a limit that nobody knows reads check your label, one that the label does not set does not") {
  struct Row {
    std::string name;
    void (*spoil)(MethodRules&);
  };
  const Row rows[] = {{"brood", [](MethodRules& r) { r.brood.reset(); }},
                      {"how often", [](MethodRules& r) { r.uses_per_year.reset(); }},
                      {"how close", [](MethodRules& r) { r.min_interval_days.reset(); }},
                      {"air", [](MethodRules& r) { r.least.reset(), r.most.reset(); }}};
  for (const Row& row : rows) {
    INFO(row.name);
    MethodRules r = strict();
    row.spoil(r);
    const MethodCheck got = check(r, fine());
    CHECK(got.verdict == MethodVerdict::CheckLabel);
    CHECK(has(got, MethodWhy::NotKnown));
  }
  MethodRules none = strict();
  none.uses_per_year = none.min_interval_days = 0;
  MethodSituation often = fine();
  often.uses_this_year = 9;
  often.last_use = day(13);
  CHECK(check(none, often).verdict == MethodVerdict::MayUse);
}

// IRAC groups: amitraz 19, pyrethroids 3A (from memory).
TEST_CASE("one class after itself is advised against, with how weak the evidence is") {
  const std::vector<MethodRules> all{strips("one", "19"), strips("two", "19"),
                                     strips("three", "3A"), strips("acid", "")};
  Keeper k = keeper_with(1, 1);
  OtherTreatmentGiven given;
  given.colony = colony(1);
  given.on = day(1);
  given.method = Method::Strip;
  given.product = "strips";
  given.rules = "one";
  k.does(at(0), given);
  const bool same[] = {true, true, false, false};
  for (std::size_t i = 0; i < all.size(); ++i) {
    INFO(all[i].id);
    const auto now = situation_of(k.farm, colony(1), all[i], all, day(14), {});
    const MethodCheck got = check(all[i], now);
    CHECK(has(got, MethodWhy::SameClass) == same[i]);
    CHECK(got.verdict == MethodVerdict::MayUse);  // advice, no obstacle
    for (const MethodReason& r : got.reasons)
      if (r.why == MethodWhy::SameClass) CHECK(r.line.find("is weak") != std::string::npos);
  }
}

TEST_CASE("uses are days of the calendar year, from walks and from what was entered") {
  MethodRules vapor = strips("vapor", "");
  vapor.method = Method::Vapor;
  const std::vector<MethodRules> all{vapor};
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  k.does(at(200), set(1));  // again on the same evening
  OtherTreatmentGiven elsewhere;
  elsewhere.colony = colony(1);
  elsewhere.on = day(2);
  elsewhere.method = Method::Vapor;
  elsewhere.product = "acid";
  k.does(at(300), elsewhere);
  const auto now = situation_of(k.farm, colony(1), vapor, all, day(20), {});
  CHECK(now.uses_this_year == 2);
  CHECK(now.last_use == day(14));
  CHECK(situation_of(k.farm, colony(2), vapor, all, day(20), {}).uses_this_year == 0);
  const Date next_year{std::chrono::year{2027}, std::chrono::month{1}, std::chrono::day{3}};
  CHECK(situation_of(k.farm, colony(1), vapor, all, next_year, {}).uses_this_year == 0);
}

TEST_CASE("a yard gets the worst verdict, and says for which colonies each reason holds") {
  Keeper k = keeper_with(3, 1);
  k.does(at(0), ColonyChanged{.colony = colony(2), .supers_on = true});
  k.does(at(1), BroodNoted{{colony(1), colony(2), colony(3)}, day(10), BroodFact::NoBrood, ""});
  const std::vector<MethodRules> all{strict()};
  const auto got = check_yard(k.farm, yard(), strict(), all, day(14), AirKnown{Temperature{120}});
  CHECK(got.verdict == MethodVerdict::NotNow);
  CHECK(got.may_use == std::vector{colony(1), colony(3)});
  REQUIRE_FALSE(got.reasons.empty());
  CHECK(got.reasons[0].reason.why == MethodWhy::SupersOn);
  CHECK(got.reasons[0].colonies == std::vector{colony(2)});
}

TEST_CASE("vapor goes by the label chosen in Setup, whatever its file says") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), ColonyChanged{.colony = colony(1), .supers_on = true});
  MethodRules vapor = strips("vapor", "");
  vapor.method = Method::Vapor;
  const std::vector<MethodRules> all{vapor};
  CHECK(check_yard(k.farm, yard(), vapor, all, day(14), {}).verdict != MethodVerdict::NotNow);
  LabelRules label = rules();
  label.supers = Supers::Forbidden;
  k.does(at(1), SetupChanged{.rules = label});
  CHECK(check_yard(k.farm, yard(), vapor, all, day(14), {}).verdict == MethodVerdict::NotNow);
}

TEST_CASE("the air of the day is what a walk noted: in this yard, else in any") {
  const auto opened = [](Keeper& k, int n, YardId in, int seconds, std::optional<Temperature> air) {
    WalkOpened o = opening(k, n);
    o.yard = in;
    o.colonies = {colony(in == yard() ? 1 : 9)};
    o.conditions.temperature = air;
    k.does(at(seconds), o);
    k.does(at(seconds + 1), WalkClosed{walk(n)});
  };
  Keeper k = keeper_with(1, 1);
  const YardId other = id<YardId>(2);
  k.does(at(0), YardAdded{other, "Far Field", {}, {}, {}});
  k.does(at(0), ColonyAdded{colony(9), other, "F1", 1});
  CHECK_FALSE(noted_air(k.farm, yard(), day(14)));
  opened(k, 1, other, 10, Temperature{180});
  CHECK(noted_air(k.farm, yard(), day(14)) == Temperature{180});
  opened(k, 2, yard(), 20, Temperature{150});
  opened(k, 3, other, 30, Temperature{120});
  opened(k, 4, yard(), 40, {});  // nobody looked at the thermometer
  CHECK(noted_air(k.farm, yard(), day(14)) == Temperature{150});
  CHECK(noted_air(k.farm, other, day(14)) == Temperature{120});
  CHECK_FALSE(noted_air(k.farm, yard(), day(15)));
}

TEST_CASE("without a reading the air expected at dusk serves, as far as it goes") {
  Keeper k = keeper_with(1, 1);
  CHECK_FALSE(air_known(k.farm, yard(), day(14)));
  k.does(at(5), AirExpected{day(14), HomePart::Dawn, Temperature{40}});
  CHECK_FALSE(air_known(k.farm, yard(), day(14)));
  k.does(at(6), AirExpected{day(14), HomePart::Evening, Temperature{180}});
  CHECK(air_known(k.farm, yard(), day(14)) == AirKnown{Temperature{180}, true});
  WalkOpened o = opening(k);
  o.conditions.temperature = Temperature{150};
  k.does(at(10), o);
  CHECK(air_known(k.farm, yard(), day(14)) == AirKnown{Temperature{150}, false});
}

TEST_CASE("dusk is cooler than the day: it proves a method too hot or too cold, never mild") {
  struct Row {
    std::string name;
    int tenths;
    MethodVerdict want;
  };
  const Row rows[] = {{"colder than the least", 49, MethodVerdict::NotNow},
                      {"between", 150, MethodVerdict::CheckLabel},
                      {"hotter than the most", 251, MethodVerdict::NotNow}};
  for (const Row& r : rows) {
    INFO(r.name);
    MethodSituation s = fine();
    s.air = AirKnown{Temperature{r.tenths}, true};
    CHECK(check(strict(), s).verdict == r.want);
    MethodRules only_least = strict();
    only_least.most.reset();
    const bool cold = r.tenths < 50;
    CHECK(check(only_least, s).verdict == (cold ? MethodVerdict::NotNow : MethodVerdict::MayUse));
  }
}

TEST_CASE("rules that cannot be are named by field") {
  struct Row {
    std::string field;
    void (*spoil)(MethodRules&);
  };
  const Row rows[] = {
      {"", [](MethodRules&) {}},
      {"withdrawal_days", [](MethodRules& r) { r.withdrawal_days = 366; }},
      {"uses_per_year", [](MethodRules& r) { r.uses_per_year = -1; }},
      {"min_interval_days", [](MethodRules& r) { r.min_interval_days = -1; }},
      {"most_rounds", [](MethodRules& r) { r.most_rounds = 61; }},
      {"least_tenths_c", [](MethodRules& r) { r.least = Temperature{251}; }},
      {"most_tenths_c", [](MethodRules& r) { r.most = Temperature{900}; }},
  };
  for (const Row& row : rows) {
    INFO(row.field);
    MethodRules r = strict();
    row.spoil(r);
    const std::string wrong = what_is_wrong(r);
    CHECK(wrong.substr(0, wrong.find(':')) == row.field);
  }
}

}  // namespace method_test
