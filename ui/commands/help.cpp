#include "ui/commands/help.h"

#include <CLI/CLI.hpp>

#include "ui/commands/call_list.h"
#include "ui/commands/say.h"

namespace ui {

int help_command(const HelpCall& call, const CLI::App& program) {
  if (call.man + !call.shell.empty() + !call.command.empty() > 1)
    return say_failure(engine::Code::BadInput,
                       "help: name a command, or give --man, or --completion, one of them");
  if (call.man) return print_text(man_page(call_list(program), DUSKWALK_VERSION));
  if (!call.shell.empty()) return print_text(completion(call_list(program), call.shell));
  if (call.command.empty())
    return print_text(program.get_formatter()->make_help(&program, program.get_name(),
                                                         CLI::AppFormatMode::Normal));
  const auto found = program.get_subcommands(
      [&](const CLI::App* command) { return command->get_name() == call.command; });
  if (found.empty())
    return say_failure(
        engine::Code::BadInput,
        fmt::format("help: there is no command \"{}\" (duskwalk help shows them)", call.command));
  return print_text(found.front()->help("duskwalk"));
}

}  // namespace ui
