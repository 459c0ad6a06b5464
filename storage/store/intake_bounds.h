// storage/store/intake_bounds.h -- what an entry may not hold when it comes in, from a bundle, from
// a sheet or from this tablet itself.
//
// U+0000 in a text: no table of an office takes it. A day before 1900: nobody counted, bought or
// planned then; it is a slip of the keyboard, and far before it calendars end. A list longer than
// any yard has colonies or plan has rounds: each makes every later opening slower. What a store
// holds already counts as it always did.
#pragma once
#include <string>

#include "engine/events/event.h"

namespace storage {

// Empty: it may come in. Else the field and the reason, "expiry: the year 0202 is before 1900".
[[nodiscard]] std::string why_not_taken_in(const engine::Event& event);

}  // namespace storage
