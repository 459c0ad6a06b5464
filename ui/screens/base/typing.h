// ui/screens/base/typing.h -- which field of a form is being typed, and what stands there so far.
#pragma once
#include "ui/touch/entry.h"

namespace ui {

struct Typing {
  int field = -1;  // none
  NumberEntry number;
  TextEntry words;
};

}  // namespace ui
