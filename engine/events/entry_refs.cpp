#include "engine/events/entry_refs.h"

#include <optional>
#include <type_traits>
#include <utility>
#include <vector>

namespace engine {

void each_entry_ref(Body& body, const std::function<void(EntryRef&)>& f) {
  const auto look = [&]<class Field>(const char*, Field& field) {
    static_assert(!std::is_same_v<Field, std::optional<EntryRef>>, "a case of its own");
    if constexpr (std::is_same_v<Field, EntryRef>) f(field);
    if constexpr (std::is_same_v<Field, std::vector<EntryRef>>)
      for (EntryRef& ref : field) f(ref);
  };
  std::visit([&](auto& kind) { kind.fields(kind, look); }, body);
}

bool names_a_fork(Event e, const Branches& branches) {
  bool any = false;
  each_entry_ref(e.body, [&](EntryRef& ref) { any = any || forks_behind(branches, ref); });
  return any;
}

Event on_side(Event e, DeviceId side, const Branches& branches) {
  const DeviceId device = std::exchange(e.ref.device, side);
  each_entry_ref(e.body, [&](EntryRef& ref) {
    if (ref.device == device) ref.device = side_at(branches, side, ref.seq);
  });
  return e;
}

}  // namespace engine
