// engine/register/day.h -- the log of one day in plain words.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/words/words.h"

namespace engine {

struct DayRow {
  EntryRef entry;
  Stamp at;
  std::string kind;    // as the journal names it
  std::string yard;    // empty when it is about none
  std::string colony;  // empty when it is about none
  std::string what;    // describe()
  std::optional<Struck> struck;
  Refusal fallen = Refusal::None;
  [[nodiscard]] bool counts() const { return !struck && fallen == Refusal::None; }
};

// The entries of a local day (each in the zone it was written in), in the log's order; those of all
// days without one.
[[nodiscard]] std::vector<DayRow> day_rows(const Farm& farm, std::optional<Date> day, Units units);

}  // namespace engine
