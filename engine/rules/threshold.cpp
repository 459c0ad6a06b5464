#include "engine/rules/threshold.h"

#include <fmt/format.h>

namespace engine {
namespace {

bool sane(int tenths) { return tenths >= 1 && tenths <= 200; }

int tenths_of(const Thresholds& t, Season season) {
  switch (season) {
    case Season::Dormant:
      return t.dormant_tenths;
    case Season::Increase:
      return t.increase_tenths;
    case Season::Peak:
      return t.peak_tenths;
    case Season::Decline:
      return t.decline_tenths;
  }
  return t.peak_tenths;
}

}  // namespace

const char* words(Season s) {
  constexpr std::array<const char*, 4> kWords{"winter cluster", "spring build-up", "summer peak",
                                              "late summer and autumn"};
  return kWords[static_cast<std::size_t>(s)];
}

std::string what_is_wrong(const Thresholds& t) {
  const std::pair<const char*, int> fields[] = {{"dormant_tenths", t.dormant_tenths},
                                                {"increase_tenths", t.increase_tenths},
                                                {"peak_tenths", t.peak_tenths},
                                                {"decline_tenths", t.decline_tenths}};
  for (const auto& [field, tenths] : fields)
    if (!sane(tenths)) return fmt::format("{}: must be 1 to 200 (0.1 to 20 mites on 100)", field);
  return {};
}

Season season_on(Date on, std::optional<Place> place) {
  const unsigned month = static_cast<unsigned>(on.month());
  const bool south = place && place->lat_udeg < 0;
  const unsigned northern = south ? (month + 5) % 12 + 1 : month;
  if (northern >= 3 && northern <= 5) return Season::Increase;
  if (northern == 6 || northern == 7) return Season::Peak;
  if (northern >= 8 && northern <= 10) return Season::Decline;
  return Season::Dormant;
}

Threshold threshold_on(const std::optional<Thresholds>& own, Date on, std::optional<Place> place) {
  const Season season = season_on(on, place);
  const Thresholds numbers = own.value_or(Thresholds{});
  const bool small = season == Season::Dormant || season == Season::Increase;
  return {tenths_of(numbers, season) / 10.0, season, own.has_value(),
          own     ? "your own, from Setup"
          : small ? "common practice while the colony is small; local advice comes first"
                  : "a USDA-ARS laboratory's leaflet, second-hand; local advice comes first"};
}

}  // namespace engine
