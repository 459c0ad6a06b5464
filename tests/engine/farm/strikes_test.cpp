// What a strike takes along is found by trying it, whatever stands on what; a fact is never among
// it. Each case wiped treatments in silence, or ended the program, before.
#include <algorithm>
#include <functional>

#include "engine/farm/merge_order.h"
#include "engine/farm/would_fall.h"
#include "engine/words/fall_words.h"
#include "tests/support/evening.h"
#include "tests/support/lists_hold.h"

namespace strikes_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}

template <class Kind, class Is>
EntryRef entry_of(const Keeper& k, Is is) {
  for (const Event& e : k.events)
    if (const auto* body = std::get_if<Kind>(&e.body); body != nullptr && is(*body)) return e.ref;
  FAIL("no such entry");
  return {};
}

EntryRef added(const Keeper& k, int n) {
  return entry_of<ColonyAdded>(k, [&](const ColonyAdded& c) { return c.colony == colony(n); });
}

std::size_t treatments(const Farm& farm) {
  std::size_t n = 0;
  for (const auto& [id, walk] : farm.walks)
    for (const Stop& stop : walk.stops) n += stop.treatments.size();
  return n;
}

// C1 and C2 are treated, C3 is not reached, and the walk is closed.
Keeper an_evening() {
  Keeper k = on_a_walk(3, 1);
  for (int n = 1; n <= 2; ++n) {
    k.does(at(n * 1000), set(n));
    k.does(at(n * 1000 + 95), cover(n, 1));
    k.does(at(n * 1000 + 800), uncover(n));
  }
  k.does(at(3000), WalkClosed{walk()});
  return k;
}

EnteredLate late(int walk_number, int colony_number) {
  EnteredLate e;
  e.walk = walk(walk_number);
  e.yard = yard();
  e.colony = colony(colony_number);
  e.on = day(14);
  e.minute = 20 * 60;
  e.dose = Mass{1000};
  e.rules = rules();
  return e;
}

std::vector<EntryRef> would_fall(const Keeper& k, const Body& body) {
  const Event e = k.next(at(90'000), body);
  return what_would_fall(k.farm, {&e, 1});
}

}  // namespace

TEST_CASE("a walk of a struck course stands without a colony of it that is struck too") {
  Keeper k = keeper_with(2, 1);
  const CourseId course = id<CourseId>(1);
  const EntryRef planned = k.does(at(0), CoursesPlanned{{{course, yard(), {day(14)}}}, "counts"});
  WalkOpened o = opening(k);
  o.course = course;
  k.does(at(0), o);
  confirm_all(k);
  k.does(at(100), set(1));
  k.does(at(195), cover(1, 1));
  k.does(at(800), uncover(1));
  k.does(at(900), WalkClosed{walk()});
  k.does(at(1000), EntryStruck{planned, "another yard"});
  k.does(at(1001), EntryStruck{added(k, 2), "entered twice"});
  CHECK(treatments(k.farm) == 1);
  CHECK(k.now().stops.size() == 1);
  CHECK(state_hash(fold_together(k.events)) == state_hash(k.farm));
}

TEST_CASE("what stands on record is checked for everything else") {
  Keeper k = on_a_walk(1, 1);
  std::vector<Event> events = k.events;
  std::erase_if(events,
                [](const Event& e) { return std::holds_alternative<ProtectionConfirmed>(e.body); });
  std::int64_t seq = 0;
  for (Event& e : events) e.ref.seq = ++seq;
  const auto say = [&](Body body) {
    events.push_back({{device(), ++seq}, at(50), std::move(body)});
  };
  say(set(1, 1, Mass{-1}));           // no protection is confirmed either
  WalkOpened second = opening(k, 2);  // while the first is under way
  second.vaporizers = {cloth(1)};
  say(second);
  const Farm farm = fold_together(events);
  CHECK(treatments(farm) == 0);
  CHECK(farm.walks.size() == 1);
}

TEST_CASE("a colony entered twice is struck, and the evening's treatments stay") {
  Keeper k = an_evening();
  REQUIRE(treatments(k.farm) == 2);
  k.does(at(5000), EntryStruck{added(k, 3), "entered twice"});
  CHECK(treatments(k.farm) == 2);
  CHECK(k.now().stops.size() == 2);
  lists_hold(k.farm);
}

TEST_CASE("one colony of an entry that names ten is struck, and the other nine stay noted") {
  Keeper k = keeper_with(10, 1);
  BroodNoted noted{{}, day(14), BroodFact::NoBrood, ""};
  for (int n = 1; n <= 10; ++n) noted.colonies.push_back(colony(n));
  const EntryRef entry = k.does(at(10), noted);
  k.does(at(20), EntryStruck{added(k, 4), "entered twice"});
  CHECK(k.farm.log.copy(*k.farm.log.find(entry)).counts());
  for (int n = 1; n <= 10; ++n)
    if (n != 4) CHECK(k.farm.colonies.at(colony(n)).brood.size() == 1);
}

TEST_CASE("one course of an entry that moves several is struck, and the others stay moved") {
  Keeper k = keeper_with(1, 1);
  const CourseId one = id<CourseId>(1), two = id<CourseId>(2);
  const EntryRef first = k.does(at(0), CoursePlanned{one, yard(), {day(14)}});
  k.does(at(1), CoursePlanned{two, yard(), {day(14)}});
  k.does(at(2),
         EveningLost{day(14), LossWhy::Rain, "", {{one, {}, {day(15)}}, {two, {}, {day(16)}}}});
  k.does(at(3), EntryStruck{first, "planned twice"});
  CHECK(k.farm.courses.at(two).rounds == std::vector{day(16)});
  CHECK(k.farm.evenings.lost.contains(day(14)));
}

TEST_CASE("a strike under which facts would fall is refused, whatever they stand on") {
  struct Row {
    std::string name;
    std::function<EntryRef(Keeper&)> makes;  // names what is to be struck
  };
  const Row rows[] = {
      {"a battery that was charged since",
       [](Keeper& k) {
         k.does(at(4000), BatteryCharged{battery(1)});
         return entry_of<KitAdded>(k, [](const KitAdded& a) { return a.item == battery(1); });
       }},
      {"a yard whose colonies moved away",
       [](Keeper& k) {
         k.does(at(4000), YardAdded{id<YardId>(2), "Short Acre", {}, {}, {}});
         for (int n = 1; n <= 3; ++n) k.does(at(4001), ColonyMoved{colony(n), id<YardId>(2), {}});
         return entry_of<YardAdded>(k, [](const YardAdded& a) { return a.yard == yard(); });
       }},
      {"a yard that a colony was moved to",
       [](Keeper& k) {
         const EntryRef to = k.does(at(4000), YardAdded{id<YardId>(2), "Short Acre", {}, {}, {}});
         k.does(at(4001), ColonyMoved{colony(1), id<YardId>(2), {}});
         return to;
       }},
      {"a colony with another treatment alone",
       [](Keeper& k) {
         k.does(at(4000), OtherTreatmentGiven{colony(3), day(14), Method::Strip, "strips"});
         return added(k, 3);
       }},
      {"a colony with a count alone",
       [](Keeper& k) {
         k.does(at(4000), CountTaken{colony(3), day(14), {}, 3, 300, {}, ""});
         return added(k, 3);
       }},
      {"a colony that was passed over",
       [](Keeper& k) {
         k.does(at(4000), opening(k, 2));
         k.does(at(4001), ColonyPassedOver{walk(2), colony(3), PassReason::TooWeak, ""});
         return added(k, 3);
       }},
      {"a walk in which nothing but a mishap happened",
       [](Keeper& k) {
         const EntryRef opened = k.does(at(4000), opening(k, 2));
         k.does(at(4001), Mishap{walk(2), {}, MishapKind::InhaledVapor, ""});
         return opened;
       }},
      {"a lot that was disposed of",
       [](Keeper& k) {
         StockReceived more;
         more.lot = id<LotId>(2), more.product = "oxalic acid", more.amount = Mass{1000};
         const EntryRef got = k.does(at(4000), more);
         k.does(at(4001), AcidDisposed{more.lot, Mass{500}, day(14), DisposalWhy::Expired, ""});
         return got;
       }},
      {"a colony that a note is about",
       [](Keeper& k) {
         k.does(at(4000), NoteWritten{{}, colony(3), "a new queen"});
         return added(k, 3);
       }},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = an_evening();
    const EntryStruck strike{r.makes(k), "no"};
    const std::uint64_t before = state_hash(k.farm);
    CHECK(k.asks(at(9000), strike) == Refusal::OthersStandOnIt);
    CHECK_FALSE(would_fall(k, strike).empty());
    CHECK(state_hash(k.farm) == before);
  }
}

TEST_CASE("a walk's closing is struck, and the late entry that joined the walk stays") {
  Keeper k = an_evening();
  const EntryRef closed = entry_of<WalkClosed>(k, [](const WalkClosed&) { return true; });
  k.does(at(4000), late(1, 3));
  REQUIRE(treatments(k.farm) == 3);
  k.does(at(5000), EntryStruck{closed, "not done yet"});
  CHECK_FALSE(k.now().closed);
  CHECK(treatments(k.farm) == 3);
  CHECK(well_formed(k.now()));
}

TEST_CASE("a late entry leaves what is under way in its colony as it is") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(1000), set(1));
  k.does(at(1095), cover(1, 1));
  const EntryRef closed = k.does(at(1200), WalkClosed{walk()});
  k.does(at(1300), late(1, 2));
  k.does(at(1400), EntryStruck{closed, "not done yet"});
  REQUIRE(k.stop(1).phase == Phase::Covered);
  CHECK(k.stop(2).phase == Phase::Done);
}

TEST_CASE("what would fall is named before a strike: details that go with it") {
  Keeper k = an_evening();
  const EntryRef setting =
      entry_of<VaporizerSet>(k, [](const VaporizerSet& s) { return s.colony == colony(2); });
  const auto fall = would_fall(k, EntryStruck{setting, "C3"});
  REQUIRE(fall.size() == 2);  // its covering and uncovering
  CHECK(fall[0] == EntryRef{device(), setting.seq + 1});
  CHECK(words_of_fall(k.farm, fall) == "2 entries of cloths of 14 Aug");
  CHECK(k.asks(at(9000), EntryStruck{setting, "C3"}) == Refusal::None);
  CHECK(would_fall(k, CountTaken{colony(1), day(14), {}, 3, 300, {}, ""}).empty());
}

TEST_CASE("several strikes are tried together: what they strike themselves does not fall") {
  Keeper k = an_evening();
  const EntryRef counted = k.does(at(4000), CountTaken{colony(3), day(14), {}, 3, 300, {}, ""});
  Event first = k.next(at(5000), EntryStruck{counted, "no"});
  Event second = first;
  ++second.ref.seq;
  second.body = EntryStruck{added(k, 3), "no"};
  const Event both[] = {first, second};
  CHECK(what_would_fall(k.farm, both).empty());
  CHECK(words_of_fall(k.farm, would_fall(k, second.body)) == "1 count of 14 Aug");
  CHECK(k.asks(at(5000), second.body) == Refusal::OthersStandOnIt);
}

}  // namespace strikes_test
