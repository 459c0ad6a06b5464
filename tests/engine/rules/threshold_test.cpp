#include "engine/rules/threshold.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "engine/rules/regions.h"

namespace threshold_test {

using namespace engine;

namespace {

Date in_month(unsigned month) {
  return Date{std::chrono::year{2026}, std::chrono::month{month}, std::chrono::day{15}};
}
constexpr Place kNorth{45'000'000, 0}, kSouth{-35'000'000, 0};

}  // namespace

TEST_CASE("the colony's season follows the month, half a year later in the south") {
  struct Row {
    std::string name;
    unsigned month;
    Season north, south;
  };
  // Common practice, no published source.
  const Row rows[] = {{"January", 1, Season::Dormant, Season::Peak},
                      {"February", 2, Season::Dormant, Season::Decline},
                      {"March", 3, Season::Increase, Season::Decline},
                      {"May", 5, Season::Increase, Season::Dormant},
                      {"June", 6, Season::Peak, Season::Dormant},
                      {"August", 8, Season::Decline, Season::Dormant},
                      {"September", 9, Season::Decline, Season::Increase},
                      {"October", 10, Season::Decline, Season::Increase},
                      {"November", 11, Season::Dormant, Season::Increase},
                      {"December", 12, Season::Dormant, Season::Peak}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(season_on(in_month(r.month), kNorth) == r.north);
    CHECK(season_on(in_month(r.month), kSouth) == r.south);
    CHECK(season_on(in_month(r.month), {}) == r.north);
  }
}

TEST_CASE("a threshold says whose it is; the keeper's own comes first") {
  const Threshold summer = threshold_on({}, in_month(7), kNorth);
  CHECK(summer.per_100 == 3.0);
  CHECK_FALSE(summer.own);
  CHECK(summer.source.find("USDA-ARS") != std::string::npos);
  const Threshold spring = threshold_on({}, in_month(4), kNorth);
  CHECK(spring.per_100 == 2.0);
  CHECK(spring.source.find("common practice") != std::string::npos);
  const Threshold own = threshold_on(Thresholds{10, 15, 25, 20}, in_month(9), kNorth);
  CHECK(own.per_100 == 2.0);
  CHECK(own.own);
}

TEST_CASE("a threshold beyond sense is named by field") {
  CHECK(what_is_wrong(Thresholds{}).empty());
  CHECK(what_is_wrong(Thresholds{0, 20, 30, 30}).starts_with("dormant_tenths"));
  CHECK(what_is_wrong(Thresholds{20, 20, 30, 201}).starts_with("decline_tenths"));
}

TEST_CASE("published thresholds stand beside the keeper's own, each with its source") {
  for (const RegionThreshold& r : region_thresholds()) {
    INFO(r.region);
    CHECK(r.tenths >= 1);
    CHECK(r.tenths <= 200);
    CHECK(std::string(r.source).size() > 8);
  }
  // More than 6 mites in a wash of 300 bees is 2 in 100: order of New South Wales, 2023.
  const auto spring = region_lines(Season::Increase);
  CHECK(std::any_of(spring.begin(), spring.end(), [](const std::string& line) {
    return line.starts_with("New South Wales, an order: more than 6");
  }));
  // Manitoba, 2021: 10 in 100 with little brood belongs to no other time.
  for (const std::string& line : spring) CHECK(line.find("10 in 100") == std::string::npos);
}

}  // namespace threshold_test
