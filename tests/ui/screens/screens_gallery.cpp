// tests/ui/screens/screens_gallery.cpp -- every other screen and page as pictures: screens_gallery
// FOLDER [WORD [BEGAN]].
//
// Not a test: no machine can say whether a screen is clear. With a WORD only the states whose name
// holds it; BEGAN is another evening, as 2026-01-14T19:40:00-07:00.
#include <cstdio>
#include <vector>

#include "tests/support/farm_states.h"
#include "tests/ui/screens/gallery_page.h"

int main(int argc, char** argv) {
  if (argc < 2) return std::fprintf(stderr, "screens_gallery FOLDER [WORD [BEGAN]]\n"), 2;
  std::vector<test::FarmState> states = test::farm_states();
  for (test::FarmState& state : states)
    if (argc > 3) state.outfit.began = argv[3];
  return test::draw_states(states, argv[1], argc > 2 ? argv[2] : "");
}
