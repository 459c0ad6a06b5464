#pragma once
#include "ui/screens/base/typing.h"

namespace ui {

struct FormView {
  int page = 0;       // of the fields
  int list_page = 0;  // of the options of one field
  Typing typing;      // field: its place among the fields
  bool no_such_day = false;
};

}  // namespace ui
