#include "engine/method/ends.h"

#include "engine/agenda/agenda.h"
#include "tests/support/evening.h"

namespace ends_test {

using namespace evening;

namespace {

Date day(unsigned d, unsigned month = 8) {
  return Date{std::chrono::year{2026}, std::chrono::month{month}, std::chrono::day{d}};
}

// Amitraz strips as common practice has their labels: so many days in the hive, honey and supers
// after a wait that runs from the day they are out.
MethodRules strips() {
  MethodRules m;
  m.id = "strips";
  m.name = "Strips";
  m.method = Method::Strip;
  m.days_in_hive = 42;
  m.supers_after_days = 14;
  m.wait_from = CountedFrom::Removal;
  return m;
}

OtherTreatmentGiven given(int n, std::optional<int> days_given = std::nullopt) {
  OtherTreatmentGiven g;
  g.colony = colony(n);
  g.on = day(1);
  g.method = Method::Strip;
  g.product = "Strips of the test";
  g.withdrawal_days = 14;
  g.rules = "strips";
  g.days_given = days_given;
  return g;
}

std::vector<std::string> lines(const Keeper& k, Date on) {
  const MethodRules m[] = {strips()};
  std::vector<std::string> all;
  for (const TreatmentEnd& e : treatment_ends(k.farm, m, on)) all.push_back(words_of(e));
  return all;
}

}  // namespace

TEST_CASE("strips that are in say by when they come out, and what waits from then on") {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), given(1)), k.does(at(1), given(2));
  // 1 August and 42 days: 12 September; 14 more: 26 September.
  CHECK(lines(k, day(20)) ==
        std::vector<std::string>{
            "strips out by 2026-09-12 (2 colonies): Strips of the test",
            "no honey for people before 2026-09-26 (2 colonies): Strips of the test, counted from "
            "the day they are out",
            "no supers before 2026-09-26 (2 colonies): Strips of the test, counted from the day "
            "they are out"});
  // Left in eight days too long they make the wait as much longer.
  CHECK(lines(k, day(20, 9))[1].find("before 2026-10-04") != std::string::npos);
}

TEST_CASE("once the days in the hive are noted nothing comes out, and the wait runs out") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), given(1, 10));  // out on the 11th: until the 25th
  CHECK(lines(k, day(24)).size() == 2);
  CHECK(lines(k, day(24))[0] ==
        "no honey for people before 2026-08-25 (1 colony): Strips of the "
        "test");
  CHECK(lines(k, day(25)).empty());
  CHECK(lines(k, day(31, 7)).empty());
}

TEST_CASE("a wait that runs from giving does not ask when the strips are out") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), given(1));
  MethodRules m[] = {strips()};
  m[0].wait_from = CountedFrom::Giving;
  const auto ends = treatment_ends(k.farm, m, day(10));
  REQUIRE(ends.size() == 3);
  CHECK(ends[0].on == day(15));
  CHECK_FALSE(ends[0].from_removal_to_come);
}

TEST_CASE("rules that are not known say nothing of strips; the honey written down still waits") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), given(1));
  const auto ends = treatment_ends(k.farm, {}, day(10));
  REQUIRE(ends.size() == 1);
  CHECK(ends[0].kind == EndKind::HoneyWaits);
  CHECK(ends[0].on == day(15));
}

TEST_CASE("the agenda has strips before counts after a course, and what waits near its end") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), given(1));
  const MethodRules m[] = {strips()};
  std::vector<AgendaKind> kinds;
  for (const AgendaItem& i : agenda_on(k.farm, day(14, 9), m)) kinds.push_back(i.kind);
  REQUIRE(kinds.size() >= 3);
  CHECK(kinds.front() == AgendaKind::StripsOut);
  CHECK(kinds.back() == AgendaKind::Wait);
  CHECK(line_of(agenda_on(k.farm, day(14, 9), m).front(), k.farm) ==
        "Long Acre: strips out by 2026-09-12 (1 colony): Strips of the test, 2 days overdue");
}

TEST_CASE("vapor under a label with days before honey makes honey wait") {
  Keeper k = keeper_with(1, 1);
  WalkOpened o = opening(k);
  o.rules.withdrawal_days = 5;
  k.does(at(0), o);
  confirm_all(k);
  k.does(at(10), set(1));
  const auto ends = treatment_ends(k.farm, {}, day(15));
  REQUIRE(ends.size() == 1);
  CHECK(ends[0].on == day(19));
}

}  // namespace ends_test
