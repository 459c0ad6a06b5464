// ui/screens/tablets/tablet_pages.h -- the pages of the other tablets: bundles, forks, the exchange
// folder.
#pragma once
#include <string>
#include <vector>

#include "engine/farm/setups.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// tablets_page.cpp: taking in what other tablets wrote, and settling what contradicts.
Ask tablets_page(Touch& t, Rect room, const Look& look, RegisterView& v);
// tablets_fork.cpp: settling a fork, or striking one side of it.
Ask fork_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Contradicted& c);
void count_sides(const Look& look, TabletsView& v, const engine::Contradicted& c);
// tablets_offer.cpp: what another tablet has set, and whether it is used here too.
Ask offer_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Offer& offer);
[[nodiscard]] Row offer_row(const Look& look, const engine::Offer& offer);
// pairing_page.cpp: this tablet's words and code; what is held back of others.
Ask pairing_page(Touch& t, Rect room, const Look& look, TabletsView& v);
Ask held_page(Touch& t, Rect room, const Look& look, TabletsView& v, const HeldSeen& held);
[[nodiscard]] Row held_row(const HeldSeen& held);
// tablets_join.cpp: making one of what was entered twice.
Ask join_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Contradicted& c);
// What came of taking in bundles or a copy.
[[nodiscard]] std::string taken_in_title(const TakenIn& in);
[[nodiscard]] std::vector<std::string> taken_in_lines(const TakenIn& in);
// exchange_page.cpp: the folder that is watched.
Ask exchange_page(Touch& t, Rect room, const Look& look, TabletsView& v);

}  // namespace ui
