// Two yards or colonies that were entered twice become one, with all that was entered of both; and
// two again when that is struck.
#include "engine/events/joins.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "engine/farm/fold.h"
#include "engine/farm/merge_order.h"
#include "engine/register/log_index.h"
#include "engine/words/contradictions.h"
#include "engine/words/words.h"
#include "tests/support/evening.h"

namespace joins_test {

using namespace evening;

namespace {

const Date kDay{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{14}};

YardId yard_of(int n) { return id<YardId>(n); }

// All that is known but for the log, in which the join and its strike stay.
std::uint64_t without_log(Farm farm) {
  farm.log = {};
  farm.last_seq = {};
  return state_hash(farm);
}

CountTaken count(int colony_number, int mites) {
  return {colony(colony_number), kDay, CountMethod::AlcoholWash, mites, 300, {}, ""};
}

// Two tablets entered yard Alder Bend with its A1 each; 11 to 19 are the second one's.
struct Doubled {
  std::vector<Event> events;

  DeviceId tablet(int n) { return id<DeviceId>(n); }
  EntryRef says(int n, int seconds, Body body) {
    std::int64_t seq = 1;
    for (const Event& e : events) seq += e.ref.device == tablet(n) ? 1 : 0;
    events.push_back({{tablet(n), seq}, at(seconds), std::move(body)});
    return events.back().ref;
  }
  Doubled() {
    for (const int n : {1, 2}) {
      const int base = n == 1 ? 0 : 10;
      says(n, n, YardAdded{yard_of(1 + base), "Alder Bend", {}, "", n == 2 ? "wet" : ""});
      says(n, n, ColonyAdded{colony(1 + base), yard_of(1 + base), "A1", 2});
      says(n, n, KitAdded{vaporizer(n), KitSort::Vaporizer, "V"});
      says(n, n, KitAdded{cloth(n), KitSort::Cloth, "C"});
      says(n, 10 + n, count(1 + base, 3 * n));
      says(n, 12 + n, CoursePlanned{id<CourseId>(n), yard_of(1 + base), {kDay}});
    }
  }
  [[nodiscard]] Farm farm() const { return fold_together(events); }
  // A treatment by that tablet on a walk of its own.
  void treats(int n, int seconds) {
    const int base = n == 1 ? 0 : 10;
    WalkOpened o;
    o.walk = walk(n);
    o.yard = yard_of(1 + base);
    o.rules = rules();
    o.colonies = {colony(1 + base)};
    o.vaporizers = {vaporizer(n)};
    o.cloths = {cloth(n)};
    says(n, seconds, o);
    for (std::size_t i = 0; i < enum_names(Protection{}).size(); ++i)
      says(n, seconds, ProtectionConfirmed{o.walk, static_cast<Protection>(i)});
    says(n, seconds, VaporizerSet{o.walk, colony(1 + base), vaporizer(n), {}, {}, Mass{1000}, 2});
    says(n, seconds + 90, ColonyCovered{o.walk, colony(1 + base), cloth(n)});
    says(n, seconds + 700, ColonyUncovered{o.walk, colony(1 + base)});
    says(n, seconds + 710, WalkClosed{o.walk});
  }
  std::vector<EntryRef> join(int seconds = 2000) {
    return {says(1, seconds, YardsJoined{yard_of(11), yard_of(1)}),
            says(1, seconds, ColoniesJoined{colony(11), colony(1)})};
  }
};

}  // namespace

TEST_CASE("what two tablets entered twice is one after a join, with counts, courses and vapor") {
  Doubled d;
  d.treats(1, 100), d.treats(2, 1000);
  CHECK(d.farm().colonies.size() == 2);
  d.join();
  const Farm farm = d.farm();
  REQUIRE(farm.yards.size() == 1);
  REQUIRE(farm.colonies.size() == 1);
  CHECK(farm.yards.at(yard_of(1)).note == "wet");
  CHECK(farm.counts.size() == 2);
  int counts = 0;
  farm.counts.each_of(colony(1), [&](const Count&) { ++counts; });
  CHECK(counts == 2);
  CHECK(farm.courses.at(id<CourseId>(2)).yard == yard_of(1));
  CHECK(farm.walks.at(walk(2)).yard == yard_of(1));
  CHECK(farm.vaporized.of(colony(1)).size() == 2);
  CHECK(farm.colonies.at(colony(1)).vapor->sum == Mass{2000});
  const auto found = contradictions(farm);
  REQUIRE(found.size() == 1);  // one hive had vapor twice that day: what was hidden comes to light
  CHECK(found[0].what == Contradiction::TreatedTwice);
  LogIndex index;
  index.read_all(farm);
  CHECK(index.of_colony(colony(11)).empty());
}

TEST_CASE("a join that is struck gives the state before, entry by entry and all at once") {
  Doubled d;
  d.treats(1, 100), d.treats(2, 1000);
  const std::uint64_t before = without_log(d.farm());
  for (const EntryRef& ref : d.join()) d.says(1, 2100, EntryStruck{ref, "they are two"});
  const Farm together = d.farm();
  CHECK(without_log(together) == before);
  CHECK(together.log.joins().empty());
  CHECK(std::get<ColonyAdded>(find_entry(together, {d.tablet(2), 2})->event.body).colony ==
        colony(11));
  Farm one_by_one = fold_together(std::vector<Event>(d.events.begin(), d.events.end() - 4));
  for (auto e = d.events.end() - 4; e != d.events.end(); ++e) {
    REQUIRE(why_not(one_by_one, *e) == Refusal::None);
    one_by_one = apply(std::move(one_by_one), *e);
  }
  CHECK(state_hash(one_by_one) == state_hash(together));
}

TEST_CASE("any order of arrival gives the same farm, joins and strikes of joins among it") {
  Doubled d;
  d.treats(1, 100), d.treats(2, 1000);
  const auto joins = d.join(900);
  d.says(2, 950, EntryStruck{joins[0], "no"});
  d.says(2, 960, YardsJoined{yard_of(1), yard_of(11)});
  d.says(2, 970, count(11, 9));
  d.says(1, 980, ColonyChanged{colony(11), {}, 3, {}, {}, {}, {}});
  const std::uint64_t want = state_hash(d.farm());
  std::mt19937 random(7);
  for (int round = 0; round < 20; ++round) {
    std::vector<Event> of[2];
    for (const Event& e : d.events) of[e.ref.device == d.tablet(1) ? 0 : 1].push_back(e);
    Farm farm;
    std::size_t next[2] = {0, 0};
    while (next[0] < of[0].size() || next[1] < of[1].size()) {
      const std::size_t t = next[0] == of[0].size() || (next[1] < of[1].size() && random() % 2);
      const std::size_t n = std::min<std::size_t>(1 + random() % 7, of[t].size() - next[t]);
      const auto begin = of[t].begin() + static_cast<std::ptrdiff_t>(next[t]);
      farm = take_together(std::move(farm),
                           std::vector<Event>(begin, begin + static_cast<std::ptrdiff_t>(n)));
      next[t] += n;
    }
    REQUIRE(state_hash(farm) == want);
  }
}

TEST_CASE("a correction made after a join holds for an entry made before it") {
  Doubled d;
  d.treats(2, 1000);
  d.join();
  const auto wrong = std::find_if(d.events.begin(), d.events.end(), [](const Event& e) {
    return std::holds_alternative<VaporizerSet>(e.body);
  });
  VaporizerSet right = std::get<VaporizerSet>(wrong->body);
  right.colony = colony(1);
  right.dose = Mass{1500};
  d.says(1, 2100, EntryCorrected{wrong->ref, "mistyped", Replacement{right}});
  const Farm farm = d.farm();
  CHECK(farm.colonies.at(colony(1)).vapor->sum == Mass{1500});
  CHECK(contradictions(farm).empty());
}

TEST_CASE("two that one walk treated both are two, whoever says otherwise") {
  Keeper k = on_a_walk(2, 2);
  CHECK(k.asks(at(5), ColoniesJoined{colony(2), colony(1)}) == Refusal::AnotherWalkUnderWay);
  k.does(at(10), set(1)), k.does(at(100), cover(1, 1));
  k.does(at(110), set(2)), k.does(at(200), cover(2, 2));
  k.does(at(900), uncover(1)), k.does(at(910), uncover(2)), k.does(at(920), WalkClosed{walk()});
  CHECK(k.asks(at(930), ColoniesJoined{colony(2), colony(1)}) == Refusal::WalkedApart);
  std::vector<Event> events = k.events;
  events.push_back({{id<DeviceId>(2), 1}, at(950), ColoniesJoined{colony(2), colony(1)}});
  const Farm farm = fold_together(events);
  CHECK(farm.colonies.size() == 2);
  CHECK(farm.vaporized.of(colony(2)).size() == 1);
  const auto found = contradictions(farm);
  REQUIRE(found.size() == 1);
  CHECK(words(found[0], farm).find("One walk treated both") != std::string::npos);
}

TEST_CASE("a walk that passed over one of two that are one stays with what it gave the other") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1)), k.does(at(100), cover(1, 1)), k.does(at(800), uncover(1));
  k.does(at(810), ColonyPassedOver{walk(), colony(2), PassReason::Other, "entered twice"});
  k.does(at(820), WalkClosed{walk()});
  k.does(at(900), ColoniesJoined{colony(2), colony(1)});
  CHECK(k.farm.colonies.size() == 1);
  REQUIRE(k.now().stops.size() == 1);
  CHECK(k.stop(1).treatments.size() == 1);
  CHECK(well_formed(k.now()));
  CHECK(k.farm.vaporized.of(colony(1)).size() == 1);
}

TEST_CASE("joins join on: of three names for one thing all are one") {
  Keeper k = keeper_with(3, 1);
  k.does(at(1), ColoniesJoined{colony(3), colony(2)});
  k.does(at(2), count(2, 5));
  const EntryRef second = k.does(at(3), ColoniesJoined{colony(2), colony(1)});
  CHECK(k.farm.colonies.size() == 1);
  CHECK(k.farm.log.joins().of(colony(3)) == colony(1));
  CHECK(k.farm.counts.any_of(colony(1)));
  CHECK(k.asks(at(4), ColoniesJoined{colony(1), colony(1)}) == Refusal::AlreadyThere);
  CHECK(k.asks(at(4), ColoniesJoined{colony(3), colony(1)}) == Refusal::NoSuchColony);
  k.does(at(5), EntryStruck{second, "no"});
  CHECK(k.farm.colonies.size() == 2);
  CHECK(k.farm.counts.any_of(colony(2)));
}

TEST_CASE(
    "who gave up one name of a thing without knowing of the join does not give up the thing") {
  Doubled d;
  d.join(500);
  d.says(2, 600, ColonyLost{colony(11), "entered twice"});
  const Farm farm = d.farm();
  REQUIRE(farm.colonies.size() == 1);
  CHECK_FALSE(farm.colonies.at(colony(1)).lost);
  CHECK(contradictions(farm).size() == 1);
}

TEST_CASE("one name twice has its way out: the joins of yards and of their colonies") {
  Doubled d;
  d.says(2, 20, ColonyAdded{colony(12), yard_of(11), "A2", 1});
  Farm farm = d.farm();
  const auto found = contradictions(farm);
  REQUIRE(found.size() == 1);
  REQUIRE(found[0].what == Contradiction::NamedTwice);
  const auto joins = joins_of(farm, found[0]);
  REQUIRE(joins.size() == 2);
  CHECK(std::get<YardsJoined>(joins[0]).into == yard_of(1));
  for (const Body& join : joins) d.says(1, 3000, join);
  farm = d.farm();
  CHECK(contradictions(farm).empty());
  CHECK(farm.yards.size() == 1);
  CHECK(farm.colonies.size() == 2);
}

TEST_CASE("a log shows joined ids on every page, packed or not, and gives them back") {
  Log log;
  const int many = static_cast<int>(Log::kPage) * 2 + 40;
  for (int i = 1; i <= many; ++i) log.push_back({{device(), i}, at(i), count(1 + i % 3, i % 100)});
  Joins joins;
  joins.join(colony(3), colony(1));
  log.set_joins(joins);
  const auto colony_at = [&](int i) {
    return std::get<CountTaken>(log.copy(static_cast<std::size_t>(i)).event.body).colony;
  };
  const auto written_at = [&](int i) {
    return std::get<CountTaken>(log.as_written(static_cast<std::size_t>(i)).body).colony;
  };
  const auto holds = [&](bool joined) {
    for (int i = 0; i < static_cast<int>(log.size()); ++i) {
      const ColonyId want = colony(1 + (i + 1) % 3);
      REQUIRE(written_at(i) == want);
      REQUIRE(colony_at(i) == (joined && want == colony(3) ? colony(1) : want));
    }
  };
  holds(true);
  for (int i = many + 1; i <= many + 700; ++i)
    log.push_back({{device(), i}, at(i), count(1 + i % 3, i % 100)});
  holds(true);
  log.truncate(Log::kPage + 100);
  holds(true);
  Log again;
  REQUIRE(again.take_pages(log.pages()));
  CHECK(std::get<CountTaken>(again.copy(1).event.body).colony == colony(3));
  log.set_joins({});
  holds(false);
}

}  // namespace joins_test
