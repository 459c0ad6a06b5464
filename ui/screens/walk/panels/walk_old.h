// ui/screens/walk/panels/walk_old.h -- a walk that was left open: is it gone on with, or was it
// never ended?
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// No walk goes on after so long without an entry; its timers would only count hours. Own choice.
inline constexpr engine::Ms kLongAgo = std::chrono::hours{10};

[[nodiscard]] bool was_left_open(const Look& look, const engine::Walk& walk, const UnderWay& view);

// Going on is one tap; ending it is a hold, after the hives that are still shut in the journal.
Ask walk_old(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view);

}  // namespace ui
