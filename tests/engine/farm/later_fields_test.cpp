// What may be said of yards, colonies, courses and kit since later versions: it is kept, and the
// impossible is refused.
#include "tests/support/evening.h"

namespace later_fields_test {

using namespace evening;

namespace {

Date day(int n) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day(n)};
}

const Colony& first(const Keeper& k) { return k.farm.colonies.at(colony(1)); }

}  // namespace

TEST_CASE("a yard's card keeps what is not said anew") {
  Keeper k = keeper_with(1, 1);
  YardChanged e{yard()};
  e.address = "Mill Lane 3", e.access = "by the orchard", e.landowner = "A. Fold, 555 0100";
  e.private_note = "4711";
  k.does(at(1), e);
  e = {yard()};
  e.access = "by the bridge";
  k.does(at(2), e);
  const Yard& y = k.farm.yards.at(yard());
  CHECK(y.address == "Mill Lane 3");
  CHECK(y.access == "by the bridge");
  CHECK(y.landowner == "A. Fold, 555 0100");
  CHECK(y.private_note == "4711");
}

TEST_CASE("a colony's sort, queen and leaks are said of it") {
  Keeper k = keeper_with(1, 1);
  CHECK(first(k).sort == ColonySort::Hive);
  ColonyChanged e{colony(1)};
  e.sort = ColonySort::Nuc, e.queenless = true;
  e.leaks = {Leak::DrainHole, Leak::Cracks};
  k.does(at(1), e);
  CHECK(first(k).sort == ColonySort::Nuc);
  CHECK(first(k).queenless);
  CHECK(first(k).leaks == std::vector{Leak::DrainHole, Leak::Cracks});
  e = {colony(1)};
  e.leaks.emplace();
  k.does(at(2), e);
  CHECK(first(k).leaks.empty());
  CHECK(first(k).queenless);
  e.leaks = {Leak::Cracks, Leak::Cracks};
  CHECK(k.asks(at(3), e) == Refusal::AlreadyThere);
  ColonyAdded added{colony(8), yard(), "N1", 1};
  added.sort = ColonySort::Swarm;
  k.does(at(4), added);
  CHECK(k.farm.colonies.at(colony(8)).sort == ColonySort::Swarm);
}

TEST_CASE("the last board that went in is known") {
  Keeper k = keeper_with(1, 1);
  k.does(at(1), BoardPutIn{colony(1), day(12)});
  k.does(at(2), BoardPutIn{colony(1), day(10)});
  CHECK(first(k).board_in == day(12));
  CHECK(k.asks(at(3), BoardPutIn{colony(1), Date{}}) == Refusal::OutOfRange);
  CHECK(k.asks(at(3), BoardPutIn{colony(9), day(12)}) == Refusal::NoSuchColony);
}

TEST_CASE("a course keeps what was asked of it until something else is") {
  Keeper k = keeper_with(1, 1);
  const CourseId course = id<CourseId>(1);
  k.does(at(1), CoursesPlanned{{{course, yard(), {day(14)}, RoundsAsked{day(30), 5, 7, 200}}}, ""});
  k.does(at(2), CoursesPlanned{{{course, {}, {day(15)}, {}}}, ""});
  CHECK(k.farm.courses.at(course).asked == RoundsAsked{day(30), 5, 7, 200});
  k.does(at(3), CoursesPlanned{{{course, {}, {day(16)}, RoundsAsked{{}, 4, 7, {}}}}, ""});
  CHECK(k.farm.courses.at(course).asked == RoundsAsked{{}, 4, 7, {}});
  for (const RoundsAsked& wrong :
       {RoundsAsked{{}, 0, 7, {}}, RoundsAsked{{}, 8, 7, {}}, RoundsAsked{{}, 4, 61, {}},
        RoundsAsked{Date{}, 4, 7, {}}, RoundsAsked{{}, 4, 7, 9}, RoundsAsked{{}, 4, 7, 1001}})
    CHECK(k.asks(at(4), CoursesPlanned{{{course, {}, {day(17)}, wrong}}, ""}) ==
          Refusal::OutOfRange);
}

TEST_CASE("of kit what is printed on it and when it was tested") {
  Keeper k = keeper_with(1, 1);
  KitAdded pack{battery(7), KitSort::Battery, "big"};
  pack.watt_hours = 200;
  k.does(at(1), pack);
  CHECK(k.farm.kit.at(battery(7)).watt_hours == 200);
  pack = {battery(8), KitSort::Battery, "none"};
  pack.watt_hours = 0;
  CHECK(k.asks(at(2), pack) == Refusal::OutOfRange);
  KitChanged fit{respirator()};
  fit.fit_tested = day(1);
  k.does(at(3), fit);
  CHECK(k.farm.kit.at(respirator()).fit_tested == day(1));
  k.does(at(4), FilterChanged{respirator(), "ABEK", day(31)});
  CHECK(k.farm.kit.at(respirator()).cartridge_last == day(31));
}

TEST_CASE("a count says what the second shake brought, of the mites it has") {
  Keeper k = keeper_with(1, 1);
  CountTaken c{colony(1), day(14)};
  c.mites = 6, c.bees = 300, c.second_shake = 7;
  CHECK(k.asks(at(1), c) == Refusal::OutOfRange);
  c.second_shake = 2, c.queen_safe = true;
  k.does(at(1), c);
}

TEST_CASE("what a tablet shows and hears is within bounds") {
  Keeper k = keeper_with(1, 1);
  const auto asked = [&](auto member, auto value) {
    SetupChanged e;
    e.*member = value;
    return k.asks(at(1), e);
  };
  CHECK(asked(&SetupChanged::language, std::string("es")) == Refusal::None);
  CHECK(asked(&SetupChanged::language, std::string("../x")) == Refusal::OutOfRange);
  CHECK(asked(&SetupChanged::brightness, 4) == Refusal::OutOfRange);
  CHECK(asked(&SetupChanged::brightness, 100) == Refusal::None);
  CHECK(asked(&SetupChanged::half_cup_bees, 300) == Refusal::None);
  CHECK(asked(&SetupChanged::half_cup_bees, 5000) == Refusal::OutOfRange);
}

}  // namespace later_fields_test
