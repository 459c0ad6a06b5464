#include "engine/season/brood.h"

#include <doctest/doctest.h>

namespace brood_test {

using namespace engine;

namespace {

Date august(int d) {  // may run into September
  return Date{days(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{1}}) +
              std::chrono::days{d - 1}};
}

}  // namespace

// Worker out on day 21, drone on day 24 from the egg; capped from day 8 or 9 (encyclopedia table,
// several beekeeping texts agree). UK summary of product characteristics 2015: cage 25 days or
// more.
TEST_CASE("a caged queen leaves no brood after 24 days, and a week after her release") {
  const std::vector<BroodNote> caged{{august(1), BroodFact::QueenCaged}};
  const std::vector<BroodNote> released{{august(1), BroodFact::QueenCaged},
                                        {august(27), BroodFact::QueenReleased}};
  const std::vector<BroodNote> early{{august(1), BroodFact::QueenCaged},
                                     {august(11), BroodFact::QueenReleased}};
  struct Row {
    std::string name;
    const std::vector<BroodNote>& notes;
    int day;
    BroodState want;
  };
  const Row rows[] = {
      {"before the caging", caged, 0, BroodState::Unknown},
      {"day 23", caged, 24, BroodState::Present},
      {"day 24", caged, 25, BroodState::None},
      {"released, nothing capped yet", released, 34, BroodState::None},
      {"capped again", released, 35, BroodState::Present},
      {"released too early: never without", early, 18, BroodState::Present},
      {"and after", early, 26, BroodState::Present},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(brood_on(r.notes, august(r.day)) == r.want);
  }
}

TEST_CASE("what a keeper saw is believed for a while") {
  const std::vector<BroodNote> none{{august(1), BroodFact::NoBrood}};
  CHECK(brood_on(none, august(8)) == BroodState::None);
  CHECK(brood_on(none, august(9)) == BroodState::Unknown);  // an egg of day 1 may be capped
  const std::vector<BroodNote> seen{{august(1), BroodFact::BroodSeen}};
  CHECK(brood_on(seen, august(21)) == BroodState::Present);
  CHECK(brood_on(seen, august(22)) == BroodState::Unknown);
  CHECK(brood_on({}, august(1)) == BroodState::Unknown);
}

TEST_CASE("the window of a caged queen is told before it opens, and gone when it has closed") {
  const std::vector<BroodNote> caged{{august(1), BroodFact::QueenCaged}};
  const auto window = broodless_window(caged, august(3));
  REQUIRE(window);
  CHECK(window->first == august(25));
  CHECK(window->caged);
  const std::vector<BroodNote> released{{august(1), BroodFact::QueenCaged},
                                        {august(26), BroodFact::QueenReleased}};
  CHECK(broodless_window(released, august(28))->last == august(33));
  CHECK_FALSE(broodless_window(released, august(34)));
  CHECK_FALSE(broodless_window({{august(1), BroodFact::BroodSeen}}, august(2)));
}

}  // namespace brood_test
