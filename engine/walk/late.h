// engine/walk/late.h -- what was entered afterwards, as part of a walk.
//
// The journal keeps when it was entered (the event's stamp) and when it happened (its fields). A
// walk that nobody opened is made of its late entries alone: closed, without kit, `past`.
#pragma once
#include "engine/walk/walk.h"

namespace engine {

// When it happened, in the zone it was entered in; by its day alone: at noon. Not of this boot.
[[nodiscard]] Stamp happened_at(const Stamp& entered, const EnteredLate& late);

// A past walk without stops.
[[nodiscard]] Walk begin_past(const Event& e, const EnteredLate& late);

// The walk with the late entry in it: a treatment that is over, or a passing over, at its colony's
// stop (a new one, at the end, where the walk has none). In a walk that is not closed any more what
// is under way in the colony stays as it is.
[[nodiscard]] Walk enter_late(Walk walk, const Event& e, const EnteredLate& late);

}  // namespace engine
