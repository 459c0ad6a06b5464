#include "engine/rules/regions.h"

#include <fmt/format.h>

#include <array>

namespace engine {
namespace {

// The pages of Manitoba and of New South Wales were read; the other two are second-hand.
constexpr std::array<RegionThreshold, 8> kRegions{{
    {"Manitoba", Season::Increase, 10, "stay below 1 in 100 in spring",
     "provincial recommendation of 2021"},
    {"Manitoba", Season::Decline, 10, "1 to 3 in 100 in fall while there is brood",
     "provincial recommendation of 2021"},
    {"Manitoba", Season::Dormant, 100, "stay below 10 in 100 with little brood",
     "provincial recommendation of 2021"},
    {"New South Wales", std::nullopt, 20,
     "more than 6 mites in a wash of 300 bees: treat all hives within 14 days; look every 16 weeks",
     "biosecurity order of 2023", true},
    {"United States", std::nullopt, 30, "3 in 100, or more than 30 fallen a day",
     "a USDA-ARS laboratory's leaflet, second-hand"},
    {"United States", Season::Increase, 20, "stay below 2 to 3 in 100",
     "practitioners' articles of 2020, second-hand"},
    {"United States", Season::Peak, 20, "stay below 2 to 3 in 100",
     "practitioners' articles of 2020, second-hand"},
    {"United States", Season::Decline, 20, "stay below 2 to 3 in 100",
     "practitioners' articles of 2020, second-hand"},
}};

}  // namespace

std::span<const RegionThreshold> region_thresholds() { return kRegions; }

std::vector<std::string> region_lines(Season season) {
  std::vector<std::string> lines;
  for (const RegionThreshold& r : kRegions)
    if (!r.season || *r.season == season)
      lines.push_back(
          fmt::format("{}{}: {} ({}).", r.region, r.duty ? ", an order" : "", r.says, r.source));
  return lines;
}

}  // namespace engine
