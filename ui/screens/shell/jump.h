// ui/screens/shell/jump.h -- from a scanned hive tag to its colony.
#pragma once
#include "engine/farm/farm.h"
#include "ui/screens/state/views.h"

namespace ui {

// In a walk under way the colony is the next one to be dealt with, else its own page opens. False,
// and nothing changes: the farm has no such colony.
bool jump_to(const engine::Farm& farm, engine::DeviceId device, Views& views,
             engine::ColonyId colony);

}  // namespace ui
