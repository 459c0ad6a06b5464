// engine/events/branches.h -- the sides of a tablet that forked: a copy of its store was written on
// too, so that one number of one tablet names two entries.
//
// Each side goes under a name of its own from the first number where the sides differ; the numbers
// stay. What both have in common keeps the tablet's id. The names follow from the entries alone, so
// that every tablet that has both sides calls them alike, whichever came first.
#pragma once
#include <cstdint>
#include <vector>

#include "engine/events/event_fields.h"

namespace engine {

struct Branch {
  DeviceId id;            // what the farm calls it
  DeviceId device;        // what its entries call it
  DeviceId after;         // what it goes on from: another branch, or `device` itself
  std::int64_t from = 0;  // its first number
  friend auto operator<=>(const Branch&, const Branch&) = default;
  DUSKWALK_FIELDS(f("id", s.id), f("device", s.device), f("after", s.after), f("from", s.from))
};

using Branches = std::vector<Branch>;  // rising

// nullptr: the id is a tablet's own.
[[nodiscard]] const Branch* find_branch(const Branches& branches, DeviceId id);
// How many branches it goes on from, itself among them; 0 for a tablet's own id.
[[nodiscard]] int depth(const Branches& branches, DeviceId id);
// Whose entry that number is for somebody who writes on that side: its own or one it goes on from.
[[nodiscard]] DeviceId side_at(const Branches& branches, DeviceId id, std::int64_t seq);
// Whether the first is the second or goes on from it.
[[nodiscard]] bool goes_on_from(const Branches& branches, DeviceId id, DeviceId before);
// Whether that number lies behind a fork of what the entry names, so that it may be any side's.
[[nodiscard]] bool forks_behind(const Branches& branches, const EntryRef& ref);
// Whether one of the two goes on from the other, or they are the same.
[[nodiscard]] bool one_line(const Branches& branches, DeviceId a, DeviceId b);

// Which side of a fork somebody has read who knew of none: the only one that has the number. Where
// several have it, the entry stays named as it is: what all of them go on from was read for sure.
// `has` says whether a side has an entry.
template <class Has>
[[nodiscard]] EntryRef side_read(const Branches& branches, const EntryRef& ref, Has has) {
  EntryRef only = ref;
  if (!forks_behind(branches, ref)) return only;
  for (const Branch& b : branches) {
    if (b.id == ref.device || !goes_on_from(branches, b.id, ref.device)) continue;
    if (!has(EntryRef{b.id, ref.seq})) continue;
    if (only.device != ref.device) return ref;
    only.device = b.id;
  }
  return only;
}

}  // namespace engine
