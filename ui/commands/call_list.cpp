#include "ui/commands/call_list.h"

#include <CLI/CLI.hpp>
#include <algorithm>

namespace ui {
namespace {

// The parser shows the choices of an option behind its type: "NAME:{sun,dusk}".
std::vector<std::string> choices_of(const std::string& type) {
  const std::size_t open = type.find('{');
  if (open == std::string::npos) return {};
  std::vector<std::string> all(1);
  for (const char c : type.substr(open + 1, type.find('}') - open - 1)) {
    if (c == ',')
      all.emplace_back();
    else
      all.back() += c;
  }
  return all;
}

Switch switch_of(const CLI::Option& option) {
  Switch s;
  s.word = option.get_positional();
  for (const std::string& name : option.get_snames()) s.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) s.names.push_back("--" + name);
  if (s.word) s.names = {option.get_name(true)};
  s.says = option.get_description();
  const std::string type = option.get_type_name();
  s.choices = choices_of(type);
  if (option.get_expected_max() > 0 && option.get_items_expected_max() > 0)
    s.value = type.substr(0, type.find_first_of(": "));
  s.required = option.get_required();
  s.many = option.get_items_expected_max() > 1;
  return s;
}

CommandCall call_of(const CLI::App& app, const std::string& name) {
  CommandCall call{name, app.get_description(), {}};
  for (const CLI::Option* option : app.get_options()) call.switches.push_back(switch_of(*option));
  return call;
}

}  // namespace

std::vector<CommandCall> call_list(const CLI::App& program) {
  std::vector<CommandCall> all{call_of(program, "")};
  const auto any = [](const CLI::App*) { return true; };
  for (const CLI::App* command : program.get_subcommands(any))
    all.push_back(call_of(*command, command->get_name()));
  return all;
}

}  // namespace ui
