#include "engine/events/branches.h"

#include <algorithm>
#include <cassert>

namespace engine {

const Branch* find_branch(const Branches& branches, DeviceId id) {
  const auto at = std::lower_bound(branches.begin(), branches.end(), id,
                                   [](const Branch& b, DeviceId wanted) { return b.id < wanted; });
  return at == branches.end() || at->id != id ? nullptr : &*at;
}

int depth(const Branches& branches, DeviceId id) {
  int steps = 0;
  for (const Branch* b = find_branch(branches, id); b != nullptr;
       b = find_branch(branches, b->after)) {
    ++steps;
    assert(static_cast<std::size_t>(steps) <= branches.size());  // no circle
  }
  return steps;
}

DeviceId side_at(const Branches& branches, DeviceId id, std::int64_t seq) {
  for (const Branch* b = find_branch(branches, id); b != nullptr && seq < b->from;
       b = find_branch(branches, id))
    id = b->after;
  return id;
}

bool goes_on_from(const Branches& branches, DeviceId id, DeviceId before) {
  while (id != before) {
    const Branch* branch = find_branch(branches, id);
    if (branch == nullptr) return false;
    id = branch->after;
  }
  return true;
}

bool forks_behind(const Branches& branches, const EntryRef& ref) {
  return std::any_of(branches.begin(), branches.end(),
                     [&](const Branch& b) { return b.after == ref.device && b.from <= ref.seq; });
}

bool one_line(const Branches& branches, DeviceId a, DeviceId b) {
  return goes_on_from(branches, a, b) || goes_on_from(branches, b, a);
}

}  // namespace engine
