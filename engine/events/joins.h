// engine/events/joins.h -- yards and colonies that were entered twice and are one.
//
// A yards_joined or colonies_joined holds for all entries, whenever they were written: the log
// (log.h) shows each of them as if it had named the one thing from the start, so that whatever
// reads it needs to know nothing of joins. What was written stays as it is underneath, and is shown
// again when the join is struck.
#pragma once
#include <map>

#include "engine/events/event.h"

namespace engine {

// What each id that was joined stands for; the ids on the right are joined to nothing.
struct Joins {
  std::map<YardId, YardId> yards;
  std::map<ColonyId, ColonyId> colonies;
  friend bool operator==(const Joins&, const Joins&) = default;

  [[nodiscard]] bool empty() const { return yards.empty() && colonies.empty(); }
  [[nodiscard]] YardId of(YardId id) const;
  [[nodiscard]] ColonyId of(ColonyId id) const;
  void join(YardId one, YardId into);
  void join(ColonyId one, ColonyId into);
};

// The body with the ids that its own stand for, each once in a list; false: it names none that was
// joined. Joins say of which they are, and who gave up or lost a thing under an id that was joined
// did not know of it: their ids stay.
bool stand_for(Body& body, const Joins& joins);

// Whether the body names one of these ids.
[[nodiscard]] bool names_any(Body body, const Joins& of);

}  // namespace engine
