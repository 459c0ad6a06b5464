// The lists by yard and by colony that a farm keeps follow whatever is entered, struck, corrected.
#include "engine/core/lists.h"

#include <doctest/doctest.h>

#include <random>

#include "engine/farm/merge_order.h"
#include "tests/support/evening.h"
#include "tests/support/lists_hold.h"

namespace lists_test {

using namespace evening;

namespace {

class Acts {
 public:
  explicit Acts(unsigned seed) : random_(seed) {
    k.does(at(0), YardAdded{other_yard(), "Short Acre", {}, {}, {}});
  }

  void one() {
    switch (pick(9)) {
      case 0:
        return may(CountTaken{some(), day(), {}, pick(9), 300, {}, ""});
      case 1:
        return may(OtherTreatmentGiven{some(), day(), Method::Strip, "strips"});
      case 2:
        return may(ColonyMoved{some(), pick(2) == 0 ? yard() : other_yard(), {}});
      case 3:
        return may(EntryStruck{entry().event.ref, "slip"});
      case 4:
        return correct();
      case 5:
        return open_walk();
      case 6:
        return late();
      default:
        return set_one();
    }
  }

  Keeper k = keeper_with(5, 1);

 private:
  static YardId other_yard() { return id<YardId>(2); }
  int pick(int below) { return static_cast<int>(random_() % static_cast<unsigned>(below)); }
  ColonyId some() { return colony(1 + pick(5)); }
  Date day() { return date_after(local_date(at(0)), -pick(40)); }
  Entry entry() { return k.farm.log.copy(random_() % k.farm.log.size()); }
  void may(const Body& body) {
    if (k.asks(at(seconds_), body) == Refusal::None) k.does(at(seconds_), body);
    seconds_ += 1000 + pick(40'000);
  }
  void correct() {
    const Entry was = entry();
    if (!was.counts()) return;
    if (const auto* count = std::get_if<CountTaken>(&was.event.body)) {
      CountTaken right = *count;
      right.colony = some();
      may(EntryCorrected{was.event.ref, "slip", *replacement_of(right)});
    }
    if (const auto* given = std::get_if<OtherTreatmentGiven>(&was.event.body)) {
      OtherTreatmentGiven right = *given;
      right.on = day();
      may(EntryCorrected{was.event.ref, "slip", *replacement_of(right)});
    }
  }
  void open_walk() {
    WalkOpened o = opening(k, ++walks_);
    if (o.colonies.empty()) return;
    may(o);
    for (std::size_t i = 0; i < enum_names(Protection{}).size(); ++i)
      may(ProtectionConfirmed{walk(walks_), static_cast<Protection>(i)});
  }
  void set_one() {
    VaporizerSet s = set(1);
    s.colony = some();
    s.walk = walk(walks_);
    may(s);
    may(ColonyUncovered{s.walk, s.colony});
  }
  void late() {
    EnteredLate e;
    e.walk = id<WalkId>(1000 + ++walks_late_);
    e.yard = yard();
    e.colony = some();
    e.on = day();
    e.minute = 20 * 60;
    e.dose = Mass{1000};
    e.rules = rules();
    may(e);
  }

  std::mt19937 random_;
  int seconds_ = 0, walks_ = 0, walks_late_ = 0;
};

}  // namespace

TEST_CASE("what a farm lists by yard and colony is what a pass over everything finds") {
  std::size_t vapors = 0, others = 0, moved = 0;
  for (unsigned run = 1; run <= 12; ++run) {
    Acts acts(run);
    for (int n = 0; n < 150; ++n) {
      acts.one();
      lists_hold(acts.k.farm);
    }
    const Farm together = fold_together(acts.k.events);
    REQUIRE(state_hash(together) == state_hash(acts.k.farm));
    lists_hold(together);
    vapors += acts.k.farm.vaporized.keys();
    others += acts.k.farm.otherwise_treated.keys();
    moved += acts.k.farm.in_yard.keys();
  }
  CHECK(vapors > 30);
  CHECK(others > 30);
  CHECK(moved > 12);
}

TEST_CASE("a copy of lists keeps what it was") {
  Lists<int, int> lists;
  lists.change(1) = {1, 2};
  const Lists<int, int> before = lists;
  lists.change(1).push_back(3);
  CHECK(before.of(1).size() == 2);
  CHECK(lists.of(1).size() == 3);
  CHECK(lists.of(2).empty());
}

TEST_CASE("a count that is taken out leaves the others in their order") {
  Counts counts;
  for (int n = 1; n <= 600; ++n)
    counts.push_back({{device(), n}, CountTaken{colony(n % 3), {}, {}, n, 300, {}, {}}});
  const Counts before = counts;
  counts.erase({device(), 100});
  counts.erase({device(), 1000});  // not there
  REQUIRE(counts.size() == 599);
  CHECK(before.size() == 600);
  CHECK(counts[98].taken.mites == 99);
  CHECK(counts[99].taken.mites == 101);
  std::vector<int> of_one;
  counts.each_of(colony(1), [&](const Count& c) { of_one.push_back(c.taken.mites); });
  CHECK(of_one.size() == 199);
  CHECK(std::is_sorted(of_one.begin(), of_one.end()));
}

}  // namespace lists_test
