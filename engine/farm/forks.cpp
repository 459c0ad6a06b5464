#include "engine/farm/forks.h"

#include <algorithm>
#include <cassert>
#include <set>

#include "engine/farm/fold.h"

namespace engine {
namespace {

// The branch and those that go on from it.
std::vector<const Branch*> family(const Farm& farm, DeviceId id) {
  std::vector<const Branch*> all;
  for (const Branch& b : farm.branches)
    if (side_at(farm.branches, b.id, find_branch(farm.branches, id)->from) == id) all.push_back(&b);
  return all;
}

Stamp stamp_of(const Farm& farm, const EntryRef& ref) {
  return farm.log.copy(*farm.log.find(ref)).event.stamp;
}

// Not struck yet, and says something that can be taken back.
bool can_go(const Entry& entry) {
  const KindFacts& facts = facts_of(entry.event.body);
  return !entry.struck && !facts.is_strike() && facts.says != Says::Reading;
}

// Where the side's entries stand in the log, the last one first.
std::vector<std::size_t> places(const Farm& farm, DeviceId id) {
  std::vector<std::size_t> all;
  for (const Branch* b : family(farm, id))
    for (std::int64_t n = b->from; n <= farm.last_seq.at(b->id); ++n)
      all.push_back(*farm.log.find({b->id, n}));
  std::sort(all.rbegin(), all.rend());
  return all;
}

}  // namespace

ForkSide side_of(const Farm& farm, DeviceId id) {
  assert(find_branch(farm.branches, id) != nullptr);
  ForkSide side;
  side.id = id;
  side.from = find_branch(farm.branches, id)->from;
  side.begin = side.end = stamp_of(farm, {id, side.from});
  for (const Branch* b : family(farm, id)) {
    const std::int64_t last = farm.last_seq.at(b->id);
    side.entries += static_cast<std::size_t>(last - b->from + 1);
    if (const Stamp end = stamp_of(farm, {b->id, last}); end.at > side.end.at) side.end = end;
  }
  return side;
}

std::size_t tablets(const Farm& farm) {
  std::set<DeviceId> all;
  for (const auto& [device, last] : farm.last_seq) {
    const Branch* branch = find_branch(farm.branches, device);
    all.insert(branch == nullptr ? device : branch->device);
  }
  return all.size();
}

std::size_t to_strike(const Farm& farm, DeviceId id) {
  const auto all = places(farm, id);
  return static_cast<std::size_t>(std::count_if(
      all.begin(), all.end(), [&](std::size_t place) { return can_go(farm.log.copy(place)); }));
}

std::vector<Body> strikes_of_side(const Farm& farm, DeviceId id, const std::string& reason,
                                  DeviceId device, const Stamp& now) {
  std::vector<Body> strikes;
  Farm after = farm;
  for (const std::size_t place : places(farm, id)) {
    const Entry entry = after.log.copy(place);
    if (!can_go(entry)) continue;
    const Event e{{device, after.last_seq[device] + 1}, now, EntryStruck{entry.event.ref, reason}};
    if (why_not(after, e) != Refusal::None) continue;
    after = apply(std::move(after), e);
    strikes.push_back(e.body);
  }
  return strikes;
}

}  // namespace engine
