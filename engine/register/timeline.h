// engine/register/timeline.h -- the life of one colony as one line of time.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "engine/register/log_index.h"
#include "engine/words/words.h"

namespace engine {

enum class LifeWhat {
  Boxes,  // added or changed: brood boxes, honey supers, name
  Count,
  Vapor,
  Other,     // another treatment
  Passed,    // passed over, or not reached
  ComeBack,  // why it needed another visit
  Settled,   // needs none
  Moved,
  Brood,
  Mishap,
  Note,
  Lost,
};
constexpr std::array<const char*, 12> enum_names(LifeWhat) {
  return {"boxes",   "count", "vapor", "other",  "passed", "come_back",
          "settled", "moved", "brood", "mishap", "note",   "lost"};
}

struct LifeItem {
  Date on{};
  std::optional<Stamp> at;  // none: only the day is known
  LifeWhat what = LifeWhat::Note;
  std::string words;   // without the colony's name
  bool warns = false;  // over the label, short, entered with supers on
  EntryRef entry;
};

// What counts of it, oldest first; what was struck or fell is in the register. The book must have
// read the whole log.
[[nodiscard]] std::vector<LifeItem> timeline(const Farm& farm, const LogIndex& book,
                                             ColonyId colony, Units units);

}  // namespace engine
