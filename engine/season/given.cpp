#include "engine/season/given.h"

#include <algorithm>
#include <map>
#include <set>

namespace engine {

std::vector<VaporDay> vapor_days(const Farm& farm, ColonyId colony) {
  std::map<Date, VaporDay> by_day;
  for (const auto& [id, walk] : farm.walks) {
    const Stop* stop = find_stop(walk, colony);
    if (stop == nullptr) continue;
    for (const Treatment& t : stop->treatments) {
      VaporDay& day = by_day[local_date(t.set_at)];
      day.on = local_date(t.set_at);
      day.vaporizer = t.vaporizer;
      day.dihydrate = day.dihydrate + dihydrate(walk.rules, t.dose).value_or(Mass{});
      day.boxes = t.brood_boxes;
      day.flight = std::max(day.flight, t.flight);
    }
  }
  std::vector<VaporDay> list;
  for (const auto& [on, day] : by_day) list.push_back(day);
  return list;
}

std::vector<Date> days_treated(const Farm& farm, ColonyId colony) {
  std::set<Date> days_of;
  for (const VaporDay& d : vapor_days(farm, colony)) days_of.insert(d.on);
  farm.log.each<OtherTreatmentGiven>([&](const Entry& e) {
    const auto* given = holds<OtherTreatmentGiven>(farm, e);
    if (given && given->colony == colony) days_of.insert(given->on);
  });
  return {days_of.begin(), days_of.end()};
}

}  // namespace engine
