// tests/ui/screens/walk_gallery.cpp -- every state of a walk as pictures: walk_gallery FOLDER
// [WORD].
//
// Not a test: no machine can say whether a screen is clear. With a WORD only the states whose name
// holds it.
#include <cstdio>

#include "tests/support/walk_states.h"
#include "tests/ui/screens/gallery_page.h"

int main(int argc, char** argv) {
  if (argc < 2) return std::fprintf(stderr, "walk_gallery FOLDER [WORD]\n"), 2;
  return test::draw_states(test::walk_states(), argv[1], argc > 2 ? argv[2] : "");
}
