// ui/screens/base/theme_now.h -- which theme the keeper's choice means at a moment.
#pragma once
#include "engine/farm/queries.h"

namespace ui {

// The theme chosen on this tablet. "By the sun" becomes the sun theme while the sun stands over
// the horizon of the yard that is walked, else of home, else of the first yard whose place is
// known, and the dusk theme while it does not; the sun theme where no place is known. Night is
// never chosen by the sun: a red screen is the keeper's own wish.
[[nodiscard]] engine::Theme theme_now(const engine::Farm& farm, engine::DeviceId device,
                                      const engine::Stamp& now);

}  // namespace ui
