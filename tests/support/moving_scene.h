// tests/support/moving_scene.h -- a screen that changes at random, from a fixed seed.
//
// Has what real screens are made of: filled and rounded boxes, borders, circles, lines, text in all
// sizes, translucent layers over each other; things move, change colour, appear, vanish and are
// drawn in another order.
#pragma once
#include <imgui.h>

#include <random>
#include <string>
#include <vector>

#include "ui/touch/fonts.h"

namespace test {

class MovingScene {
 public:
  MovingScene(unsigned seed, int width_px, int height_px, const ui::Fonts& fonts);

  void change();  // usually a little, now and then much, now and then nothing
  void draw() const;

 private:
  enum class Kind { Filled, Rounded, Border, Circle, Line, Text, Clipped };
  struct Thing {
    Kind kind{};
    float x = 0, y = 0, w = 0, h = 0;
    ImU32 colour = 0;
    int font = 0;
    std::string text;
  };

  [[nodiscard]] int upto(int n);
  [[nodiscard]] Thing random_thing();
  void change_one();
  void draw(const Thing& t, ImDrawList& list) const;

  std::mt19937 random_;
  int width_px_, height_px_;
  const ui::Fonts& fonts_;
  std::vector<Thing> things_;
};

}  // namespace test
