// Whatever entries come, in whatever order: the fold gives a farm, and the farm hangs together.
#include <random>

#include "engine/farm/merge_order.h"
#include "engine/words/contradictions.h"
#include "engine/words/words.h"
#include "tests/support/any_body.h"
#include "tests/support/evening.h"
#include "tests/support/lists_hold.h"

namespace any_log_test {

using namespace evening;

namespace {

// Two tablets' entries: a yard that could be walked, and then anything.
std::vector<Event> any_log(unsigned seed, int entries) {
  std::mt19937 random(seed);
  AnyBody any(random, 2);
  std::vector<Event> events = keeper_with(3, 2, 2).events;
  std::int64_t last[] = {0, static_cast<std::int64_t>(events.size()), 0};
  int seconds = 0;
  for (int n = 0; n < entries; ++n) {
    const int tablet = 1 + any.pick(2);
    seconds += any.pick(4000) - 500;
    Body body = any();
    if (any.pick(6) == 0)
      body = EntryStruck{{id<DeviceId>(1 + any.pick(2)), 1 + any.pick(40)}, "no"};
    if (any.pick(5) == 0) {
      WalkOpened o;
      o.walk = walk(1 + any.pick(4)), o.yard = yard(), o.rules = rules();
      o.colonies = {colony(1), colony(2), colony(3)};
      o.vaporizers = {vaporizer(1), vaporizer(2)}, o.cloths = {cloth(1), cloth(2)};
      if (any.pick(2) == 0) o.course = id<CourseId>(1 + any.pick(4));
      body = o;
    }
    if (any.pick(3) == 0) {
      VaporizerSet s = set(1 + any.pick(3), 1 + any.pick(2), Mass{1000L * any.pick(3)});
      s.walk = walk(1 + any.pick(4));
      body = s;
    }
    events.push_back({{id<DeviceId>(tablet), ++last[tablet]}, at(seconds), std::move(body)});
  }
  return events;
}

void walks_hold(const Farm& farm) {
  for (const auto& [id, w] : farm.walks) {
    REQUIRE(well_formed(w));
    REQUIRE(farm.yards.contains(w.yard));
    for (const Stop& stop : w.stops) REQUIRE(farm.colonies.contains(stop.colony));
  }
  for (const auto& [device, w] : farm.walk_under_way) {
    REQUIRE(farm.walks.find(w) != farm.walks.end());
    REQUIRE_FALSE(farm.walks.at(w).closed);
  }
  for (const auto& [cloth, left] : farm.cloths_left) {
    const Stop* stop = find_stop(farm.walks.at(left.walk), left.colony);
    REQUIRE(stop != nullptr);
    REQUIRE(stop->phase == Phase::Covered);
  }
}

void names_hold(const Farm& farm) {
  for (const auto& [id, colony] : farm.colonies) {
    REQUIRE(farm.yards.contains(colony.yard));
    if (colony.last_walk) REQUIRE(farm.walks.find(*colony.last_walk) != farm.walks.end());
  }
  for (const auto& [id, course] : farm.courses) REQUIRE(farm.yards.contains(course.yard));
  for (const auto& [id, item] : farm.kit) {
    REQUIRE_FALSE(item.name.empty());
    if (item.battery) REQUIRE(farm.kit.at(*item.battery).sort == KitSort::Battery);
  }
  for (const Count& count : farm.counts) REQUIRE(farm.colonies.contains(count.taken.colony));
  for (const auto& [id, lot] : farm.lots) REQUIRE(lot.received.mg > 0);
}

void holds_together(const Farm& farm) {
  lists_hold(farm);
  walks_hold(farm);
  names_hold(farm);
  (void)come_back_list(farm);
  (void)contradictions(farm);
  for (const Entry& e : farm.log) (void)describe(e.event.body, farm);
}

}  // namespace

TEST_CASE("whatever entries come, no fold throws, and the farm hangs together") {
  std::size_t walks = 0, settings = 0, struck = 0;
  for (unsigned run = 1; run <= 300; ++run) {
    INFO("seed " << run);
    const Farm farm = fold_together(any_log(run, 90));
    holds_together(farm);
    walks += farm.walks.size();
    for (const Entry& e : farm.log) {
      if (e.struck) ++struck;
      if (e.counts() && std::holds_alternative<VaporizerSet>(e.event.body)) ++settings;
    }
  }
  CHECK(walks > 300);
  CHECK(settings > 900);
  CHECK(struck > 1500);
}

TEST_CASE("whatever entries come, taken in by portions they give the farm of all at once") {
  for (unsigned run = 1; run <= 60; ++run) {
    INFO("seed " << run);
    const std::vector<Event> all = any_log(1000 + run, 80);
    std::mt19937 random(run);
    // Of each tablet in order; which tablet's turn it is, and how many at once, by chance.
    std::vector<std::vector<Event>> lines(2);
    for (const Event& e : all) lines[e.ref.device == device() ? 0 : 1].push_back(e);
    Farm farm;
    std::size_t taken[] = {0, 0};
    while (taken[0] + taken[1] < all.size()) {
      std::vector<Event> portion;
      for (std::size_t n = 1 + random() % 20; n > 0; --n) {
        const std::size_t line = random() % 2;
        if (taken[line] < lines[line].size()) portion.push_back(lines[line][taken[line]++]);
      }
      farm = take_together(std::move(farm), std::move(portion));
    }
    REQUIRE(state_hash(farm) == state_hash(fold_together(all)));
    holds_together(farm);
  }
}

}  // namespace any_log_test
