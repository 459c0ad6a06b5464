// tests/support/scenes.h -- sample screens made of every widget, for the tests and the gallery.
//
// Names and numbers are invented; they are no advice.
#pragma once
#include <string>
#include <vector>

#include "ui/touch/widgets.h"

namespace test {

struct Scene {
  std::string name;
  void (*draw)(ui::Touch&);
};
[[nodiscard]] const std::vector<Scene>& scenes();

[[nodiscard]] const std::vector<Scene>& plot_scenes();  // among scenes()

// A yard of `n` colonies in rows, not quite straight.
[[nodiscard]] std::vector<ui::Tile> sample_yard(int n, int per_row);

}  // namespace test
