// ui/screens/base/pictured.h -- buttons with a picture on them, and the one act of a page.
#pragma once
#include <functional>
#include <string_view>

#include "ui/screens/base/drawing.h"
#include "ui/screens/base/roles.h"

namespace ui {

struct PicturedLook {
  Surface surface = Surface::Button;
  bool chosen = false;  // thick frame
  bool enabled = true;
  std::string_view id{};       // defaults to the label
  std::string_view instead{};  // large words in the picture's place: "2 g"
};
// The picture over its word, or beside it where the button lies. True in the frame of the tap.
bool pictured_button(Touch& t, const Rect& rect, std::string_view label, Icon icon,
                     const PicturedLook& look = {});

struct ActLook {
  std::string_view line{};  // one line under the words
  Surface surface = Surface::Action;
  bool enabled = true;
  bool hold = false;  // a tap is too little; `line` says why
  std::string_view id{};
  float picture_mm = 40;  // the picture's side at most, where it stands beside the words
  // Draws what is to be done, in that ink; none: words alone.
  std::function<void(const Rect&, Colour)> picture{};
};
// What to do now, as a drawing and in two or three words.
bool act_button(Touch& t, const Rect& rect, std::string_view label, const ActLook& look);

// A page on which there is nothing yet: a picture, what to do next, and the one act that does it.
// True when that was tapped.
bool empty_page(Touch& t, const Rect& room, Icon icon, std::string_view words,
                std::string_view act);

}  // namespace ui
