// engine/events/entry_refs.h -- the entries that an entry names, and an entry as a side of a fork
// has it (engine/events/branches.h).
#pragma once
#include <optional>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "engine/events/branches.h"
#include "engine/events/event.h"

namespace engine {

// f(ref) for each entry that the body names, so that f may change it. What ClockFollowed has read
// is no part of that: it stays as it was written (ClockLines says which side of a fork was read).
template <class F>
void each_entry_ref(Body& body, F f) {
  const auto look = [&]<class Field>(const char*, Field& field) {
    static_assert(!std::is_same_v<Field, std::optional<EntryRef>>, "a case of its own");
    if constexpr (std::is_same_v<Field, EntryRef>) f(field);
    if constexpr (std::is_same_v<Field, std::vector<EntryRef>>)
      for (EntryRef& ref : field) f(ref);
  };
  std::visit([&](auto& kind) { kind.fields(kind, look); }, body);
}

// Whether it names an entry that may be any side's: what it means is told among all entries only.
[[nodiscard]] inline bool names_a_fork(Event e, const Branches& branches) {
  bool any = false;
  each_entry_ref(e.body, [&](EntryRef& ref) { any = any || forks_behind(branches, ref); });
  return any;
}

// The entry under the side's name. What it says of its own tablet's entries it says of those that
// this side goes on from: no other was known where it was written.
[[nodiscard]] inline Event on_side(Event e, DeviceId side, const Branches& branches) {
  const DeviceId device = std::exchange(e.ref.device, side);
  each_entry_ref(e.body, [&](EntryRef& ref) {
    if (ref.device == device) ref.device = side_at(branches, side, ref.seq);
  });
  return e;
}

}  // namespace engine
