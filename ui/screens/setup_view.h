#pragma once
#include <optional>
#include <string>

#include "engine/dose/label.h"
#include "ui/screens/typing.h"

namespace ui {

enum class SetupSection { Units, Operator, Label, Numbers, About };

struct SetupView {
  SetupSection section = SetupSection::Units;
  int page = 0;
  std::optional<std::string> label;         // id of the profile whose page is open
  std::optional<engine::LabelRules> rules;  // the numbers being edited; none: those in force
  bool refused = false;                     // the page about files that were left out
  bool first_aid = false;
  Typing typing;
};

}  // namespace ui
