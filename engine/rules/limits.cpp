#include "engine/rules/limits.h"

#include <fmt/format.h>

#include <utility>

namespace engine {

std::string what_is_wrong(const LabelLimits& l) {
  struct Bounded {
    const char* field;
    const std::optional<int>& value;
    int most;
  };
  const Bounded numbers[] = {{"uses_per_year", l.uses_per_year, 366},
                             {"min_interval_days", l.min_interval_days, 365},
                             {"most_rounds", l.most_rounds, 60},
                             {"days_in_hive", l.days_in_hive, 365},
                             {"supers_after_days", l.supers_after_days, 365},
                             {"temperature_days", l.temperature_days, 60},
                             {"least_frames", l.least_frames, 60}};
  for (const Bounded& n : numbers)
    if (n.value && (*n.value < 0 || *n.value > n.most))
      return fmt::format("{}: must be 0 to {} (0: the label sets none)", n.field, n.most);
  for (const auto& [field, t] : {std::pair{"least_tenths_c", l.least}, {"most_tenths_c", l.most}})
    if (t && (t->tenths_c < -400 || t->tenths_c > 600))
      return fmt::format("{}: must be -400 to 600", field);
  if (l.least && l.most && *l.least > *l.most) return "least_tenths_c: is above most_tenths_c";
  return {};
}

namespace {

// "Treatments a year: 1 at most"; 0: the label sets none; unknown ones are gathered.
struct LimitLines {
  std::vector<std::string> lines{};
  std::string unknown{};

  void number(const char* what, const std::optional<int>& value, const char* unit) {
    if (!value) return missing(what);
    lines.push_back(*value == 0 ? fmt::format("{}: the label sets none", what)
                                : fmt::format("{}: {}{}", what, *value, unit));
  }
  void missing(const char* what) { unknown += (unknown.empty() ? "" : "; ") + std::string(what); }
};

const char* brood_words(BroodNeed need) {
  switch (need) {
    case BroodNeed::Any:
      return "with or without";
    case BroodNeed::LittleOrNone:
      return "when absent or least";
    case BroodNeed::None:
      return "only when absent";
  }
  return "";
}

}  // namespace

std::vector<std::string> limit_lines(const LabelLimits& l) {
  LimitLines out;
  if (l.brood)
    out.lines.push_back(std::string("Brood: ") + brood_words(*l.brood));
  else
    out.missing("brood");
  out.number("Treatments a year", l.uses_per_year, " at most");
  out.number("Days between rounds", l.min_interval_days, " at least");
  out.number("Rounds of a course", l.most_rounds, " at most");
  if (!out.unknown.empty())
    out.lines.push_back("CHECK YOUR LABEL, not known here: " + out.unknown + ".");
  return out.lines;
}

}  // namespace engine
