#pragma once
#include <optional>

#include "engine/core/id.h"

namespace ui {

struct YardsView {
  std::optional<engine::YardId> yard;      // the one whose page is open
  std::optional<engine::ColonyId> colony;  // the one whose page is open
  int page = 0;
};

}  // namespace ui
