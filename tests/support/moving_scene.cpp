#include "tests/support/moving_scene.h"

#include <utility>

namespace test {

MovingScene::MovingScene(unsigned seed, int width_px, int height_px, const ui::Fonts& fonts)
    : random_(seed), width_px_(width_px), height_px_(height_px), fonts_(fonts) {
  for (int i = 0; i < 30; ++i) things_.push_back(random_thing());
}

int MovingScene::upto(int n) { return static_cast<int>(random_() % static_cast<unsigned>(n)); }

MovingScene::Thing MovingScene::random_thing() {
  Thing t;
  t.kind = static_cast<Kind>(upto(7));
  // Half of them on whole pixels, as widgets are; half anywhere, partly outside the screen.
  const float part = upto(2) == 0 ? 0.0f : static_cast<float>(upto(100)) / 100;
  t.x = static_cast<float>(upto(width_px_ + 40) - 40) + part;
  t.y = static_cast<float>(upto(height_px_ + 40) - 40) + part;
  t.w = static_cast<float>(4 + upto(150));
  t.h = static_cast<float>(4 + upto(80));
  t.colour = IM_COL32(upto(256), upto(256), upto(256), upto(3) == 0 ? 128 : 255);
  t.font = upto(4);
  t.text = std::string("Čmelák ") + std::to_string(upto(1000));
  return t;
}

void MovingScene::change_one() {
  Thing& t = things_[static_cast<std::size_t>(upto(static_cast<int>(things_.size())))];
  switch (upto(7)) {
    case 0:
      t.x += static_cast<float>(upto(9) - 4);
      break;
    case 1:
      t.colour ^= IM_COL32(0, 255, 0, 0);
      break;
    case 2:
      t.text = std::to_string(upto(100000));
      break;
    case 3:
      t = random_thing();
      break;
    case 4:
      things_.push_back(random_thing());
      break;
    case 5:
      std::swap(t, things_.front());
      break;
    default:
      if (things_.size() > 20) things_.erase(things_.begin() + (&t - things_.data()));
  }
}

void MovingScene::change() {
  const int how_much = upto(20);
  const int changes = how_much == 0 ? 30 : how_much == 1 ? 0 : 1 + how_much / 7;
  for (int i = 0; i < changes; ++i) change_one();
}

void MovingScene::draw(const Thing& t, ImDrawList& list) const {
  const ImVec2 a(t.x, t.y), b(t.x + t.w, t.y + t.h);
  ImFont* const fonts[] = {fonts_.small, fonts_.body, fonts_.large, fonts_.huge};
  ImFont* font = fonts[t.font];
  switch (t.kind) {
    case Kind::Filled:
      return list.AddRectFilled(a, b, t.colour);
    case Kind::Rounded:
      return list.AddRectFilled(a, b, t.colour, 12);
    case Kind::Border:
      return list.AddRect(a, b, t.colour, 6, 0, 3);
    case Kind::Circle:
      return list.AddCircleFilled(a, t.h / 2, t.colour);
    case Kind::Line:
      return list.AddLine(a, b, t.colour, 2.5f);
    case Kind::Text:
      return list.AddText(font, font->FontSize, a, t.colour, t.text.c_str());
    case Kind::Clipped:
      list.PushClipRect(a, b, true);
      list.AddText(font, font->FontSize, a, t.colour, t.text.c_str());
      list.PopClipRect();
  }
}

void MovingScene::draw() const {
  for (const Thing& t : things_) draw(t, *ImGui::GetWindowDrawList());
}

}  // namespace test
