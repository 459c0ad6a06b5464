// engine/words/contradictions.h -- what several tablets say that cannot all be so.
//
// Each is shown with all its sides and stands until the keeper settles it, by an entry of its own
// (ContradictionSettled) or by striking one side. No side is ever dropped.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

enum class Contradiction {
  DoesNotFit,      // what another tablet entered makes this entry impossible
  TreatedTwice,    // two tablets gave one colony vapor on one day
  NamedTwice,      // two tablets added a yard, or a colony of one yard, under one name
  CorrectedTwice,  // two tablets corrected one entry, or one struck what the other corrected
  Forked,          // copies of one tablet's store were both written on (branches.h)
  StruckUnread,    // a strike waits: others had gone on with what it struck, unread there
  SaidTwice,       // two tablets entered one thing of a sheet, with other words
};
constexpr std::array<const char*, 7> enum_names(Contradiction) {
  return {"does_not_fit", "treated_twice", "named_twice", "corrected_twice",
          "forked",       "struck_unread", "said_twice"};
}

struct Contradicted {
  Contradiction what = Contradiction::DoesNotFit;
  // Rising; of an entry that does not fit, it alone; of a fork, the first entry of each side; of a
  // strike that waits, it and what it struck.
  std::vector<EntryRef> sides;
};

// Those not settled yet, in the order of their first sides. Of one tablet's events only those that
// do not fit: its store did not write them, or an earlier version allowed what this one does not.
[[nodiscard]] std::vector<Contradicted> contradictions(const Farm& farm);

// One line with all sides: "Alder Bend A3: treated on 2026-08-14 by two tablets: ...".
[[nodiscard]] std::string words(const Contradicted& c, const Farm& farm);

// The entries that make one thing of what was added twice under one name: of yards, with their
// colonies of one name. Each is joined into what was added first. Empty: they cannot be one.
[[nodiscard]] std::vector<Body> joins_of(const Farm& farm, const Contradicted& c);

}  // namespace engine
