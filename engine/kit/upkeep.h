// engine/kit/upkeep.h -- is the kit good for a walk?
//
// The numbers here are common practice, with no published source, and are shown as such.
#pragma once
#include "engine/farm/queries.h"

namespace engine {

inline constexpr int kSettingsBetweenCleanings = 50;  // common practice; the setup may say other
inline constexpr double kSpareAcid = 1.10;            // a tenth more than the doses add up to

// Settings after which a vaporizer is due for cleaning, by the setup.
[[nodiscard]] int settings_between_cleanings(const Setup& setup);
[[nodiscard]] bool cleaning_due(const Setup& setup, const KitItem& vaporizer);

// How long the respirator was worn since its cartridge was changed: in each walk from the first
// setting to the last lifting or uncovering.
[[nodiscard]] Ms cartridge_worn(const Farm& farm, const KitItem& respirator);
// Of the hours in the setup, not below zero; none: no hours were entered. No default is given: how
// long a cartridge lasts is for its maker and the label to say.
[[nodiscard]] std::optional<Ms> cartridge_left(const Farm& farm, const KitItem& respirator);

// The lots to use, in that order: not expired and not used up, those that expire first.
[[nodiscard]] std::vector<const Lot*> lots_to_use(const Farm& farm, Date on);
// The lot to use next: not expired and not used up, the one that expires first; else nullptr.
[[nodiscard]] const Lot* next_lot(const Farm& farm, Date on);

}  // namespace engine
