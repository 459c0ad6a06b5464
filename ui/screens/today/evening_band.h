// ui/screens/today/evening_band.h -- the evening as a band of sky: the sun's way down, when the
// bees are home, the drive and the yards.
#pragma once
#include "ui/screens/answers/tonight.h"

namespace ui {

// Whether there is an evening to draw: bees home by the light of a known place.
[[nodiscard]] bool has_band(const Look& look, const Tonight& tonight);
// Above the sky when the bees are home and when to leave. True when it was tapped.
bool evening_band(Touch& t, const Rect& rect, const Look& look, const Tonight& tonight);
[[nodiscard]] float band_high(const Touch& t);

}  // namespace ui
