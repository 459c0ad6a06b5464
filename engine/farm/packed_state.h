// engine/farm/packed_state.h -- a farm's state as bytes, and back, for checkpoints of this very
// program (engine/core/binary_pack.h).
#pragma once
#include "engine/farm/farm.h"

namespace engine {

void pack(const FarmState& state, Packer& into);
// False: these bytes are no state; `state` is then worth nothing.
[[nodiscard]] bool unpack(Unpacker& from, FarmState& state);

}  // namespace engine
