// tests/support/lists_hold.h -- the lists by yard and by colony that a farm keeps, beside what a
// pass over everything finds.
#pragma once
#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

#include "engine/farm/queries.h"

namespace engine {

template <class T>
std::vector<T> sorted(std::vector<T> list) {
  std::sort(list.begin(), list.end());
  return list;
}

inline void yard_lists_hold(const Farm& farm) {
  for (const auto& [yard, unused] : farm.yards) {
    const std::vector<ColonyId> listed(farm.in_yard.of(yard).begin(), farm.in_yard.of(yard).end());
    std::vector<ColonyId> there;
    for (const auto& [id, colony] : farm.colonies)
      if (colony.yard == yard) there.push_back(id);
    REQUIRE(listed == there);
    std::vector<std::pair<Utc, WalkId>> opened, walked;
    for (const Walks::Opened& o : farm.walks.of_yard(yard)) opened.emplace_back(o.at, o.walk);
    for (const auto& [id, walk] : farm.walks)
      if (walk.yard == yard) walked.emplace_back(walk.opened.at, id);
    REQUIRE(opened == sorted(walked));
  }
}

inline void colony_lists_hold(const Farm& farm, ColonyId colony) {
  std::vector<EntryRef> listed, counted;
  farm.counts.each_of(colony, [&](const Count& c) { listed.push_back(c.entry); });
  for (const Count& c : farm.counts)
    if (c.taken.colony == colony) counted.push_back(c.entry);
  REQUIRE(listed == counted);
  using Given = std::pair<Date, KitId>;
  std::vector<Given> vaporized, set;
  for (const Vaporized& v : farm.vaporized.of(colony)) vaporized.emplace_back(v.on, v.vaporizer);
  for (const auto& [id, walk] : farm.walks)
    if (const Stop* stop = find_stop(walk, colony))
      for (const Treatment& t : stop->treatments)
        set.emplace_back(local_date(t.set_at), t.vaporizer);
  REQUIRE(sorted(vaporized) == sorted(set));
  std::vector<std::pair<EntryRef, Date>> otherwise, said;
  for (const OtherGiven& o : farm.otherwise_treated.of(colony))
    otherwise.emplace_back(o.entry, o.on);
  farm.log.each<OtherTreatmentGiven>([&](const Entry& e) {
    const auto given = holds<OtherTreatmentGiven>(farm, e);
    if (given && given->colony == colony) said.emplace_back(e.event.ref, given->on);
  });
  REQUIRE(otherwise == said);
}

inline void lists_hold(const Farm& farm) {
  yard_lists_hold(farm);
  for (const auto& [id, colony] : farm.colonies) colony_lists_hold(farm, id);
}

}  // namespace engine
