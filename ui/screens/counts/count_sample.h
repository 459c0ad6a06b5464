// ui/screens/counts/count_sample.h -- a count whose sample was not entered.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/count_state.h"

namespace ui {

// The keys for the first sample that the yard's counts lack.
Ask sample_page(Touch& t, const Look& look, CountsView& v, const engine::Yard& yard);

}  // namespace ui
