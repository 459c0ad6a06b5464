// ui/touch/fonts.h -- the named sizes of text that the widgets draw with.
//
// Filled by ui/platform/fonts.h from one bold face; the fonts belong to the ImGui atlas they were
// built in and live as long as it does. The sizes are meant for an arm's length and for gloves, so
// they are set in millimetres on the glass, whatever the panel's pixels.
#pragma once

struct ImFont;

namespace ui {

struct Fonts {
  ImFont* small = nullptr;  // notes, units, captions
  ImFont* body = nullptr;   // sentences, list rows
  ImFont* large = nullptr;  // button labels, headings
  ImFont* huge = nullptr;   // the one thing to read on a screen: a colony, a dose
  ImFont* clock = nullptr;  // the countdown; holds only 0-9 : + - . , / g o z and space
};

}  // namespace ui
