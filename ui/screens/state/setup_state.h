#pragma once
#include <optional>
#include <string>

#include "engine/core/units.h"
#include "engine/rules/label.h"
#include "ui/screens/base/typing.h"

namespace ui {

enum class SetupSection { Units, Operator, Label, Numbers, Own, About };

struct SetupView {
  SetupSection section = SetupSection::Units;
  int page = 0;
  std::optional<std::string> label;         // id of the profile whose page is open
  std::optional<engine::LabelRules> rules;  // the numbers being edited; none: those in force
  std::optional<engine::Place> home;        // being typed
  bool refused = false;                     // the page about files that were left out
  bool first_aid = false;
  bool backups = false;             // their page is open
  std::optional<std::string> copy;  // path of the backup whose page is open
  bool taken_in = false;            // what came of it is shown there
  Typing typing;
};

}  // namespace ui
