// engine/rules/threshold.h -- how many mites on 100 bees are too many, by the time of the year.
//
// The keeper's own numbers stand in the setup; until they are entered the defaults below serve and
// are shown as what they are. No threshold is a law of nature: published ones differ, and local
// advice comes first.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "engine/core/instant.h"
#include "engine/core/names.h"
#include "engine/core/units.h"

namespace engine {

// Of the colony, not of the calendar: it builds up, is at its largest, shrinks, sits in a cluster.
enum class Season { Dormant, Increase, Peak, Decline };
constexpr std::array<const char*, 4> enum_names(Season) {
  return {"dormant", "increase", "peak", "decline"};
}
[[nodiscard]] const char* words(Season s);  // "winter cluster", "spring build-up", ...

// Tenths of a mite on 100 bees, 1 to 200. 3 a 100 is what a USDA-ARS laboratory's leaflet says for
// any time (second-hand); 2 while the colony is small is common practice (practitioners' articles:
// stay below 2 to 3), no published source.
struct Thresholds {
  int dormant_tenths = 20;
  int increase_tenths = 20;
  int peak_tenths = 30;
  int decline_tenths = 30;
  friend bool operator==(const Thresholds&, const Thresholds&) = default;

  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("dormant_tenths", s.dormant_tenths), f("increase_tenths", s.increase_tenths);
    f("peak_tenths", s.peak_tenths), f("decline_tenths", s.decline_tenths);
  }
};

// One line that names the field that is wrong, or empty.
[[nodiscard]] std::string what_is_wrong(const Thresholds& t);

// By month, half a year later in the south. Common practice, no published source: north of the
// equator increase is March to May, peak June and July, decline August to October, the rest
// dormant. Unknown place: as in the north.
[[nodiscard]] Season season_on(Date on, std::optional<Place> place);

struct Threshold {
  double per_100 = 3.0;
  Season season = Season::Peak;
  bool own = false;    // entered by the keeper
  std::string source;  // where the number comes from, in words
};
[[nodiscard]] Threshold threshold_on(const std::optional<Thresholds>& own, Date on,
                                     std::optional<Place> place);

}  // namespace engine
