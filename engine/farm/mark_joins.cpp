// Which joins of a log hold, and what its entries stand for because of them.
//
// Decided from the entries alone, before they are folded, so that the same entries give the same
// farm in whatever order they came: joins hold in the order of the log, but for those that say
// nothing new, and for those of two colonies that one walk treated both of. Such a walk had two
// hives before it; if they were one in the farm, one of its settings would fall.
#include <algorithm>
#include <set>
#include <utility>

#include "engine/farm/fold.h"

namespace engine {
namespace {

struct JoinsHeld {
  Joins joins;
  std::map<std::size_t, Refusal> by_place;  // of every join that is not struck
};

struct Sides {
  bool one = false, other = false;
  [[nodiscard]] bool both() const { return one && other; }
};

// The walks of a log as they were written, looked up when the first one is asked for. What any
// strike names is left out: a correction leaves the walk and the colony as they are.
class WalksWritten {
 public:
  explicit WalksWritten(const Log& log) : log_(log) {}

  // Whether one walk treated both of them, by what they stand for so far.
  [[nodiscard]] bool treated_apart(const Joins& so_far, ColonyId one, ColonyId other) {
    look_up();
    const auto note = [&](Sides& sides, ColonyId colony) {
      sides.one = sides.one || so_far.of(colony) == one;
      sides.other = sides.other || so_far.of(colony) == other;
    };
    std::map<WalkId, Sides> walks;
    for (const WalkOpened& e : opened_) {
      Sides listed;
      for (const ColonyId colony : e.colonies) note(listed, colony);
      if (listed.both()) walks[e.walk] = {};
    }
    if (walks.empty()) return false;
    each_written<VaporizerSet>([&](const VaporizerSet& e) {
      if (const auto walk = walks.find(e.walk); walk != walks.end()) note(walk->second, e.colony);
    });
    return std::any_of(walks.begin(), walks.end(), [](const auto& w) { return w.second.both(); });
  }

 private:
  template <class Kind, class F>
  void each_written(F f) const {
    for (std::size_t i = 0; i < log_.size(); ++i) {
      if (log_.kind_at(i) != Log::place_of<Kind>()) continue;
      const Event e = log_.as_written(i);
      if (!struck_.contains(e.ref)) f(std::get<Kind>(e.body));
    }
  }
  void look_up() {
    if (std::exchange(looked_up_, true)) return;
    log_.each<EntryStruck>(
        [&](const Entry& e) { struck_.insert(std::get<EntryStruck>(e.event.body).entry); });
    each_written<WalkOpened>([&](const WalkOpened& e) { opened_.push_back(e); });
  }

  const Log& log_;
  bool looked_up_ = false;
  std::set<EntryRef> struck_;
  std::vector<WalkOpened> opened_;
};

Refusal hold(WalksWritten&, Joins& joins, const YardsJoined& e) {
  if (joins.of(e.yard) == joins.of(e.into)) return Refusal::AlreadyThere;
  joins.join(e.yard, e.into);
  return Refusal::None;
}

Refusal hold(WalksWritten& walks, Joins& joins, const ColoniesJoined& e) {
  const ColonyId one = joins.of(e.colony), other = joins.of(e.into);
  if (one == other) return Refusal::AlreadyThere;
  if (walks.treated_apart(joins, one, other)) return Refusal::WalkedApart;
  joins.join(one, other);
  return Refusal::None;
}

JoinsHeld joins_in(const Log& log) {
  JoinsHeld held;
  WalksWritten walks(log);
  log.each<YardsJoined, ColoniesJoined>([&](const Entry& e) {
    if (e.struck) return;
    const auto* yards = std::get_if<YardsJoined>(&e.event.body);
    held.by_place[*log.find(e.event.ref)] =
        yards != nullptr ? hold(walks, held.joins, *yards)
                         : hold(walks, held.joins, std::get<ColoniesJoined>(e.event.body));
  });
  return held;
}

// The ids that stand for something else by one of the two; what for is left open.
template <class Id>
void differing(const std::map<Id, Id>& a, const std::map<Id, Id>& b, std::map<Id, Id>& ids) {
  for (const auto& [id, to] : a)
    if (const auto at = b.find(id); at == b.end() || at->second != to) ids[id] = Id{};
}

std::size_t first_naming_others(const Log& log, const Joins& before, const Joins& now) {
  Joins ids;
  differing(before.yards, now.yards, ids.yards), differing(now.yards, before.yards, ids.yards);
  differing(before.colonies, now.colonies, ids.colonies);
  differing(now.colonies, before.colonies, ids.colonies);
  for (std::size_t i = 0; i < log.size(); ++i)
    if (names_any(log.as_written(i).body, ids)) return i;
  return log.size();
}

}  // namespace

std::size_t mark_joins(Log& log) {
  if (!log.holds_joins()) return log.size();
  JoinsHeld now = joins_in(log);
  for (const auto& [place, why] : now.by_place) log.set_fallen(place, why);
  if (now.joins == log.joins()) return log.size();
  const std::size_t changed = first_naming_others(log, log.joins(), now.joins);
  log.set_joins(std::move(now.joins));
  return changed;
}

}  // namespace engine
