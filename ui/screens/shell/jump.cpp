// From a scanned hive tag to its colony.
#include "engine/farm/queries.h"
#include "ui/screens/state/views.h"

namespace ui {

bool jump_to(const engine::Farm& farm, engine::DeviceId device, Views& views,
             engine::ColonyId colony) {
  const auto at = farm.colonies.find(colony);
  if (at == farm.colonies.end() || at->second.lost) return false;
  const engine::Walk* walk = engine::walk_under_way(farm, device);
  if (walk != nullptr && engine::find_stop(*walk, colony) != nullptr) {
    views.screen = ScreenName::Walk;
    views.walk.panel = WalkPanel::None;
    views.walk.first_aid = false;
    views.walk.chosen = colony;
    return true;
  }
  views.screen = ScreenName::Yards;
  views.yards = {};
  views.yards.yard = at->second.yard;
  views.yards.colony = colony;
  return true;
}

}  // namespace ui
