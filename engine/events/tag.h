// engine/events/tag.h -- the words on a hive tag: which colony it is, for a scanner.
//
// "DW" and the 32 hexadecimal digits of the colony's id, in capitals: only signs that a QR code
// packs tightly (ISO/IEC 18004, alphanumeric mode) and that a scanner acting as a keyboard types
// alike on every layout.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "engine/core/id.h"

namespace engine {

[[nodiscard]] std::string tag_of(ColonyId colony);
// Blanks around it and small letters do not matter; nullopt: no tag of ours.
[[nodiscard]] std::optional<ColonyId> colony_of_tag(std::string_view scanned);

}  // namespace engine
