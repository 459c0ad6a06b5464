// tests/ui/screens/gallery_page.h -- the states of screens as pictures, for people to look at.
//
// Writes STATE-THEME-SIZE.png for both themes, lying and upright, and prints what faults() finds.
#pragma once
#include <functional>
#include <string>

#include "tests/support/screen_harness.h"

namespace test {

// False when a picture could not be made or saved; stderr says why.
bool draw_state(const std::string& name, const Outfit& outfit,
                const std::function<void(Evening&)>& reach, const std::string& folder);

// Draws those of the states whose name holds `word`; the exit code of a gallery.
template <class States>
int draw_states(const States& states, const std::string& folder, const std::string& word) {
  bool good = true;
  for (const auto& state : states)
    if (state.name.find(word) != std::string::npos)
      good = draw_state(state.name, state.outfit, state.reach, folder) && good;
  return good ? 0 : 1;
}

}  // namespace test
