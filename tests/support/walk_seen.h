// tests/support/walk_seen.h -- what the tests of the walk screens ask of an evening.
#pragma once
#include <algorithm>

#include "tests/support/walk_states.h"

namespace test {

// The n-th colony's stop in the first walk.
inline const engine::Stop& stop(const Evening& e, int n) {
  const auto& walk = e.farm.walks.begin()->second;
  return *engine::find_stop(walk, e.colony(n));
}

// The action button; nullptr: there is none now.
inline const ui::Target* action(const Evening& e) {
  const auto& all = e.touch().targets();
  const auto at =
      std::find_if(all.begin(), all.end(), [](auto& t) { return t.id.starts_with("action: "); });
  return at == all.end() ? nullptr : &*at;
}

// The last event written; throws when it is of another kind.
template <class Kind>
const Kind& last_body(const Evening& e) {
  return std::get<Kind>(e.farm.log.back()->event.body);
}

}  // namespace test
