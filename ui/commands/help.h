// ui/commands/help.h -- `duskwalk help`: what the parser knows, as text, man page or completion.
#pragma once
#include "ui/commands/commands.h"

namespace CLI {
class App;
}

namespace ui {

struct HelpCall {
  std::string command;  // empty: all of them
  bool man = false;
  bool dictionary = false;
  std::string shell;  // empty: no completion is asked for
};

// The JSON Schema of what a command reads or prints: "order", "mites", "due".
int print_schema(const std::string& of, const Surroundings& around);

int help_command(const HelpCall& call, const CLI::App& program);

}  // namespace ui
