// What speaks against entries of yards and colonies.
#include "engine/farm/why_not_kinds.h"

namespace engine {

Refusal why_not(const Farm& f, const YardAdded& e) {
  if (e.name.empty()) return Refusal::NameMissing;
  if (!place_in_range(e.place)) return Refusal::OutOfRange;
  return e.yard.empty() || find(f.yards, e.yard) ? Refusal::AlreadyThere : Refusal::None;
}

Refusal why_not(const Farm& f, const YardChanged& e) {
  if (const Refusal r = yard_known(f, e.yard); r != Refusal::None) return r;
  if (e.name && e.name->empty()) return Refusal::NameMissing;
  return place_in_range(e.place) ? yard_lost(f, e.yard) : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const YardLost& e) { return yard_there(f, e.yard); }

Refusal why_not(const Farm& f, const ColonyAdded& e) {
  if (e.name.empty()) return Refusal::NameMissing;
  if (!boxes_in_range(e.brood_boxes)) return Refusal::OutOfRange;
  if (e.colony.empty() || find(f.colonies, e.colony)) return Refusal::AlreadyThere;
  if (const Refusal r = yard_known(f, e.yard); r != Refusal::None) return r;
  return yard_lost(f, e.yard);
}

Refusal why_not(const Farm& f, const ColonyChanged& e) {
  if (const Refusal r = colony_known(f, e.colony); r != Refusal::None) return r;
  if (e.name && e.name->empty()) return Refusal::NameMissing;
  if (e.brood_boxes && !boxes_in_range(*e.brood_boxes)) return Refusal::OutOfRange;
  if (e.leaks && !each_once(*e.leaks)) return Refusal::AlreadyThere;
  return colony_lost(f, e.colony);
}

Refusal why_not(const Farm& f, const ColonyMoved& e) {
  if (const Refusal r = colony_known(f, e.colony); r != Refusal::None) return r;
  if (const Refusal r = yard_known(f, e.to); r != Refusal::None) return r;
  if (const Refusal r = colony_lost(f, e.colony); r != Refusal::None) return r;
  return yard_lost(f, e.to);
}

Refusal why_not(const Farm& f, const ColonyLost& e) { return colony_there(f, e.colony); }

Refusal why_not(const Farm& f, const YardsJoined& e) {
  if (const Refusal r = yard_there(f, e.yard); r != Refusal::None) return r;
  if (const Refusal r = yard_there(f, e.into); r != Refusal::None) return r;
  return e.yard == e.into ? Refusal::AlreadyThere : Refusal::None;
}

namespace {

// A walk that treated both had two hives before it; one that has both on its list comes to its end
// first.
Refusal walked_apart(const Walk& walk, const ColoniesJoined& e) {
  const Stop* one = find_stop(walk, e.colony);
  const Stop* other = find_stop(walk, e.into);
  if (one == nullptr || other == nullptr) return Refusal::None;
  if (!one->treatments.empty() && !other->treatments.empty()) return Refusal::WalkedApart;
  return walk.closed ? Refusal::None : Refusal::AnotherWalkUnderWay;
}

}  // namespace

Refusal why_not(const Farm& f, const ColoniesJoined& e) {
  if (const Refusal r = colony_there(f, e.colony); r != Refusal::None) return r;
  if (const Refusal r = colony_there(f, e.into); r != Refusal::None) return r;
  if (e.colony == e.into) return Refusal::AlreadyThere;
  for (const auto& [id, walk] : f.walks)
    if (const Refusal r = walked_apart(walk, e); r != Refusal::None) return r;
  return Refusal::None;
}

}  // namespace engine
