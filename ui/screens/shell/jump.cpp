#include "ui/screens/shell/jump.h"

#include "engine/farm/queries.h"
#include "ui/screens/shell/go_to.h"

namespace ui {

bool jump_to(const engine::Farm& farm, engine::DeviceId device, Views& views,
             engine::ColonyId colony) {
  const auto at = farm.colonies.find(colony);
  if (at == farm.colonies.end() || at->second.lost) return false;
  const engine::Walk* walk = engine::walk_under_way(farm, device);
  if (walk == nullptr || engine::find_stop(*walk, colony) == nullptr) {
    go_to(ToYard{at->second.yard, colony}, views);
    return true;
  }
  go_to(ToScreen{ScreenName::Walk}, views);
  views.walk.first_aid = false;
  views.walk.under_way.panel = WalkPanel::None;
  views.walk.under_way.chosen = colony;
  return true;
}

}  // namespace ui
