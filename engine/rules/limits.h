// engine/rules/limits.h -- what a label limits besides the dose: how often, how close together,
// with which brood, in which weather, for how long.
//
// Every limit may be unknown (none): then the answer is "check your label", never "yes". A number
// of 0 says that the label was read and sets no such limit.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/core/names.h"
#include "engine/core/units.h"

namespace engine {

// What the label asks of the brood.
enum class BroodNeed { Any, LittleOrNone, None };
constexpr std::array<const char*, 3> enum_names(BroodNeed) {
  return {"any", "little_or_none", "none"};
}

// From which day a waiting time counts.
enum class CountedFrom { Giving, Removal };
constexpr std::array<const char*, 2> enum_names(CountedFrom) { return {"giving", "removal"}; }

struct LabelLimits {
  std::optional<BroodNeed> brood{};
  std::optional<int> uses_per_year{};          // days of a calendar year on which it may be given
  std::optional<int> min_interval_days{};      // from one round to the next
  std::optional<int> most_rounds{};            // of one course
  std::optional<int> days_in_hive{};           // of strips, pads, wafers
  std::optional<int> supers_after_days{};      // before supers may go on
  std::optional<CountedFrom> wait_from{};      // of these, and of the days before honey
  std::optional<Temperature> least{}, most{};  // air, the highest of the day it is given
  std::optional<int> temperature_days{};       // and of so many days after
  std::optional<int> least_frames{};           // strength: frames of brood
  std::optional<bool> entrance_open{};         // true: fully open while it works
  friend bool operator==(const LabelLimits&, const LabelLimits&) = default;

  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("brood", s.brood), f("uses_per_year", s.uses_per_year);
    f("min_interval_days", s.min_interval_days), f("most_rounds", s.most_rounds);
    f("days_in_hive", s.days_in_hive), f("supers_after_days", s.supers_after_days);
    f("wait_from", s.wait_from), f("least", s.least), f("most", s.most);
    f("temperature_days", s.temperature_days), f("least_frames", s.least_frames);
    f("entrance_open", s.entrance_open);
  }
};

// One line that names the field that is wrong, or empty.
[[nodiscard]] std::string what_is_wrong(const LabelLimits& limits);

// For the keeper: a line for each limit that is known, then one that names those that are not.
[[nodiscard]] std::vector<std::string> limit_lines(const LabelLimits& limits);

}  // namespace engine
