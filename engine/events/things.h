// engine/events/things.h -- what an entry names, and what it brings into the farm.
#pragma once
#include <functional>
#include <optional>
#include <variant>

#include "engine/events/event.h"

namespace engine {

// Other entries can name it only while the entry that brings it counts. (Courses are left out: no
// fact falls for want of its course.)
using Thing = std::variant<YardId, ColonyId, KitId, LotId, WalkId>;

// f(thing) for each that the words name, whatever the field.
void each_named(const Body& body, const std::function<void(const Thing&)>& f);

// The thing that entries after this one can name because of it. A late entry brings its walk where
// nobody opened that; a correction brings what its words bring.
[[nodiscard]] std::optional<Thing> brought_by(const Body& body);

// The walk that the entry opens or belongs to; nullptr: none. It lives in the body.
[[nodiscard]] const WalkId* walk_of(const Body& body);

}  // namespace engine
