#include "engine/guide/planned.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/walk/timers.h"

namespace engine {
namespace {

struct Done {
  Ms first = Ms::max(), last{};
  std::optional<Ms> shortest;
  std::vector<std::pair<Ms, ColonyId>> settings;
};

void shorter(std::optional<Ms>& shortest, Ms seal) {
  if (!shortest || seal < *shortest) shortest = seal;
}

Done done_of(const Walk& w) {
  Done d;
  const auto since = [&](const Stamp& at) { return elapsed(w.opened, at).length; };
  for (const Stop& s : w.stops)
    for (const Treatment& t : s.treatments) {
      d.first = std::min(d.first, since(t.set_at));
      d.settings.push_back({since(t.set_at), s.colony});
      for (const auto& at : {t.lifted_at, t.uncovered_at})
        if (at) d.last = std::max(d.last, since(*at));
      if (const auto seal = seal_of(t); seal && t.cloth) shorter(d.shortest, seal->length);
    }
  std::stable_sort(d.settings.begin(), d.settings.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  return d;
}

// How many settings can stand as they are with all others counted as moved: the longest run of
// places in the plan that only rises.
int kept_order(const std::vector<ColonyId>& order,
               const std::vector<std::pair<Ms, ColonyId>>& settings) {
  std::vector<std::ptrdiff_t> ends;  // of the best run of each length, its last place
  for (const auto& [when, colony] : settings) {
    const auto at = std::find(order.begin(), order.end(), colony);
    if (at == order.end()) continue;
    const std::ptrdiff_t place = at - order.begin();
    const auto longer = std::lower_bound(ends.begin(), ends.end(), place);
    if (longer == ends.end())
      ends.push_back(place);
    else
      *longer = place;
  }
  return static_cast<int>(ends.size());
}

}  // namespace

std::optional<PlannedAndDone> planned_and_done(const Walk& w) {
  const Done done = done_of(w);
  if (w.planned.empty() || done.settings.empty()) return std::nullopt;
  PlannedAndDone p;
  p.planned = w.planned.back().end - w.planned.front().end;
  p.done = done.last - done.first;
  p.seal_done = done.shortest;
  std::map<ColonyId, Seconds> closed;
  std::vector<ColonyId> order;
  for (const PlannedVisit& v : w.planned) {
    if (v.act == OrderDo::Set) order.push_back(v.colony);
    if (v.act == OrderDo::Cover) closed[v.colony] = v.end;
    if (v.act == OrderDo::Uncover && closed.count(v.colony) != 0)
      shorter(p.seal_planned, v.start - closed[v.colony]);
  }
  p.elsewhere = static_cast<int>(done.settings.size()) - kept_order(order, done.settings);
  for (const ColonyId colony : order) {
    const Stop* stop = find_stop(w, colony);
    p.left_out += stop == nullptr || stop->treatments.empty() ? 1 : 0;
  }
  return p;
}

std::string words(const PlannedAndDone& p) {
  const auto minutes = [](Ms ms) { return std::chrono::round<std::chrono::minutes>(ms).count(); };
  std::string said = fmt::format("Planned {} min, took {}.", minutes(p.planned), minutes(p.done));
  if (p.seal_planned && p.seal_done)
    said += fmt::format(" Shortest seal {} planned, {} done.", minutes_seconds(*p.seal_planned),
                        minutes_seconds(*p.seal_done));
  if (p.elsewhere > 0)
    said +=
        fmt::format(" {} setting{} out of the order.", p.elsewhere, p.elsewhere == 1 ? "" : "s");
  if (p.left_out > 0) said += fmt::format(" {} left out.", p.left_out);
  return said;
}

}  // namespace engine
