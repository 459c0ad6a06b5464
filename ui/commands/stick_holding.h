// ui/commands/stick_holding.h -- which stick a folder lies on, whatever way the folder was named.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "storage/disk/removable_media.h"

namespace ui {

// Links and relative paths are followed first (they are read from the disk). Of sticks that are
// mounted on one another the innermost; none: the folder lies on the tablet.
[[nodiscard]] std::optional<storage::Stick> stick_holding(
    const std::string& folder, const std::vector<storage::Stick>& sticks);

}  // namespace ui
