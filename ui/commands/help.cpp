#include "ui/commands/help.h"

#include <CLI/CLI.hpp>

#include "storage/disk/whole_file.h"
#include "storage/store/data_dictionary.h"
#include "ui/commands/call_list.h"
#include "ui/commands/say.h"

namespace ui {

int print_schema(const std::string& of, const Surroundings& around) {
  constexpr std::size_t kMost = std::size_t{1} << 20;
  const auto text =
      storage::read_whole_file(around.assets + "/schemas/" + of + ".schema.json", kMost);
  return text.ok() ? print_text(text.value()) : say_failure(text.status());
}

int help_command(const HelpCall& call, const CLI::App& program) {
  if (call.man + call.dictionary + !call.shell.empty() + !call.command.empty() > 1)
    return say_failure(
        engine::Code::BadInput,
        "help: name a command, or give --man, --dictionary or --completion, one of them");
  if (call.man) return print_text(man_page(call_list(program), DUSKWALK_VERSION));
  if (call.dictionary) return print_text(storage::dictionary_text());
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
