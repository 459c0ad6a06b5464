// The way out where one thing was entered twice under one name: which joins make one of it.
#include <algorithm>

#include "engine/farm/fold.h"
#include "engine/farm/queries.h"
#include "engine/words/contradictions.h"

namespace engine {
namespace {

bool fits(const Farm& farm, const Body& body) {
  return why_it_does_not_fit(farm, Event{{}, {}, body}) == Refusal::None;
}

// What the entries added, the first one first.
template <class Kind>
std::vector<Kind> added_by(const Farm& farm, const std::vector<EntryRef>& sides) {
  std::vector<std::pair<std::size_t, Kind>> placed;
  for (const EntryRef& ref : sides)
    if (const auto place = farm.log.find(ref)) {
      const Entry e = farm.log.copy(*place);
      if (const auto* kind = std::get_if<Kind>(&e.event.body)) placed.emplace_back(*place, *kind);
    }
  std::sort(placed.begin(), placed.end(),
            [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Kind> all;
  for (auto& [place, kind] : placed) all.push_back(std::move(kind));
  return all;
}

void join_colonies_of(const Farm& farm, YardId yard, YardId into, std::vector<Body>& joins) {
  for (const Colony* colony : colonies_of(farm, yard))
    for (const Colony* there : colonies_of(farm, into)) {
      const Body join = ColoniesJoined{colony->id, there->id};
      if (colony->name != there->name || !fits(farm, join)) continue;
      joins.push_back(join);
      break;
    }
}

}  // namespace

std::vector<Body> joins_of(const Farm& farm, const Contradicted& c) {
  if (c.what != Contradiction::NamedTwice) return {};
  std::vector<Body> joins;
  const auto yards = added_by<YardAdded>(farm, c.sides);
  for (std::size_t i = 1; i < yards.size(); ++i) {
    const Body join = YardsJoined{yards[i].yard, yards[0].yard};
    if (!fits(farm, join)) continue;
    joins.push_back(join);
    join_colonies_of(farm, yards[i].yard, yards[0].yard, joins);
  }
  const auto colonies = added_by<ColonyAdded>(farm, c.sides);
  for (std::size_t i = 1; i < colonies.size(); ++i)
    if (const Body join = ColoniesJoined{colonies[i].colony, colonies[0].colony}; fits(farm, join))
      joins.push_back(join);
  return joins;
}

}  // namespace engine
