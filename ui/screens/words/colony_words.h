// ui/screens/words/colony_words.h -- how a colony is now: its boxes, when it was last treated, and
// why it needs a visit.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/walk/come_back.h"
#include "ui/screens/base/layout.h"

namespace ui {

[[nodiscard]] Row colony_state(const Look& look, const engine::Colony& colony);
[[nodiscard]] std::string come_back_words(const Look& look, engine::ColonyId colony);
[[nodiscard]] std::vector<engine::ComeBackReason> come_back_of(const Look& look,
                                                               engine::ColonyId colony);
[[nodiscard]] std::optional<engine::Date> last_treated(const Look& look, engine::ColonyId colony);

}  // namespace ui
