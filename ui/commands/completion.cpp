// Completions: for each call its options, the choices of a value where there are some, files and
// folders where a value is one, and nothing where it is a day, a name or a number.
#include <fmt/format.h>

#include <algorithm>

#include "ui/commands/call_list.h"

namespace ui {
namespace {

bool is_path(const Switch& s) { return s.value == kFileValue || s.value == kFolderValue; }

template <class List>
std::string spaced(const List& list, std::string_view between = " ") {
  std::string all;
  for (const std::string& item : list) all += (all.empty() ? "" : std::string(between)) + item;
  return all;
}

// Within single quotes of a shell.
std::string in_quotes(std::string_view text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

std::vector<std::string> commands_of(const std::vector<CommandCall>& calls) {
  std::vector<std::string> names;
  for (const CommandCall& call : calls)
    if (!call.name.empty()) names.push_back(call.name);
  return names;
}

std::vector<std::string> dashed(const CommandCall& call) {
  std::vector<std::string> names;
  for (const Switch& s : call.switches)
    if (!s.word) names.insert(names.end(), s.names.begin(), s.names.end());
  return names;
}

const Switch* word_of(const CommandCall& call) {
  const auto at = std::find_if(call.switches.begin(), call.switches.end(),
                               [](const Switch& s) { return s.word; });
  return at == call.switches.end() ? nullptr : &*at;
}

// ---- bash ----

std::string bash_values(const Switch& s) {
  if (!s.choices.empty())
    return fmt::format("mapfile -t COMPREPLY < <(compgen -W {} -- \"$word\")",
                       in_quotes(spaced(s.choices)));
  if (s.value == kFolderValue) return "compopt -o dirnames";
  return is_path(s) ? "compopt -o default" : ":";
}

std::string bash_call(const CommandCall& call, const std::vector<std::string>& commands) {
  std::string out = fmt::format("  {})\n    case $before in\n", in_quotes(call.name));
  for (const Switch& s : call.switches)
    if (!s.word && !s.value.empty())
      out += fmt::format("    {}) {}; return ;;\n", spaced(s.names, "|"), bash_values(s));
  std::vector<std::string> words = dashed(call);
  if (call.name.empty()) words.insert(words.end(), commands.begin(), commands.end());
  out += fmt::format("    esac\n    words={}\n", in_quotes(spaced(words)));
  if (const Switch* word = word_of(call))
    out += fmt::format("    [[ $word == -* ]] || {{ {}; return; }}\n", bash_values(*word));
  return out + "    ;;\n";
}

std::string bash(const std::vector<CommandCall>& calls) {
  const auto commands = commands_of(calls);
  std::string out = fmt::format(R"(# Completes the calls of duskwalk in bash.
_duskwalk() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}} command='' words='' i
  COMPREPLY=()
  for ((i = 1; i < COMP_CWORD; i++)); do
    case ${{COMP_WORDS[i]}} in
    {}) command=${{COMP_WORDS[i]}}; break ;;
    esac
  done
  case $command in
)",
                                spaced(commands, "|"));
  for (const CommandCall& call : calls) out += bash_call(call, commands);
  return out + R"(  esac
  mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
}
complete -F _duskwalk duskwalk
)";
}

// ---- zsh ----

// In a specification of _arguments, brackets and colons mean something.
std::string zsh_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_values(const Switch& s) {
  if (!s.choices.empty()) return fmt::format(":{}:({})", zsh_text(s.value), spaced(s.choices));
  const char* action = s.value == kFolderValue ? "_files -/" : is_path(s) ? "_files" : " ";
  return fmt::format(":{}:{}", zsh_text(s.value), action);
}

std::string zsh_switches(const CommandCall& call, std::string_view indent) {
  std::string out;
  for (const Switch& s : call.switches) {
    if (s.word) {
      out += fmt::format("{}{} \\\n", indent, in_quotes((s.many ? "*" : "") + zsh_values(s)));
      continue;
    }
    for (const std::string& name : s.names)
      out += fmt::format("{}{} \\\n", indent,
                         in_quotes(fmt::format("{}[{}]{}", name, zsh_text(s.says),
                                               s.value.empty() ? "" : zsh_values(s))));
  }
  return out;
}

std::string zsh(const std::vector<CommandCall>& calls) {
  std::string out = "#compdef duskwalk\n_duskwalk() {\n  local -a commands\n  commands=(\n";
  for (const CommandCall& call : calls)
    if (!call.name.empty())
      out += fmt::format("    {}\n", in_quotes(call.name + ":" + zsh_text(call.says)));
  out += "  )\n  local state line curcontext=$curcontext\n  _arguments -C \\\n";
  out += zsh_switches(calls.front(), "    ");
  out += "    '1: :->command' '*:: :->rest' && return\n  case $state in\n";
  out += "  command) _describe command commands ;;\n  rest)\n    case $words[1] in\n";
  for (const CommandCall& call : calls)
    if (!call.name.empty())
      out += fmt::format("    {}) _arguments \\\n{}      && return ;;\n", call.name,
                         zsh_switches(call, "      "));
  return out + "    esac ;;\n  esac\n}\n_duskwalk \"$@\"\n";
}

// ---- fish ----

std::string fish_switch(const Switch& s, const std::string& when) {
  std::string line = "complete -c duskwalk -n " + in_quotes(when);
  for (const std::string& name : s.names)
    line += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  if (!s.choices.empty())
    line += " -x -a " + in_quotes(spaced(s.choices));
  else if (s.value == kFolderValue)
    line += " -x -a '(__fish_complete_directories)'";
  else if (!s.value.empty())
    line += is_path(s) ? " -r -F" : " -x";
  return line + " -d " + in_quotes(s.says) + "\n";
}

std::string fish_word(const Switch& s, const std::string& when) {
  std::string line = "complete -c duskwalk -n " + in_quotes(when);
  if (!s.choices.empty()) return line + " -a " + in_quotes(spaced(s.choices)) + "\n";
  if (s.value == kFolderValue) return line + " -a '(__fish_complete_directories)'\n";
  return is_path(s) ? line + " -F\n" : "";
}

std::string fish(const std::vector<CommandCall>& calls) {
  std::string out = "# Completes the calls of duskwalk in fish.\ncomplete -c duskwalk -f\n";
  for (const CommandCall& call : calls) {
    const std::string when =
        call.name.empty() ? "__fish_use_subcommand" : "__fish_seen_subcommand_from " + call.name;
    if (!call.name.empty())
      out += fmt::format("complete -c duskwalk -n __fish_use_subcommand -a {} -d {}\n", call.name,
                         in_quotes(call.says));
    for (const Switch& s : call.switches) out += s.word ? fish_word(s, when) : fish_switch(s, when);
  }
  return out;
}

}  // namespace

std::string completion(const std::vector<CommandCall>& calls, std::string_view shell) {
  if (shell == "zsh") return zsh(calls);
  return shell == "fish" ? fish(calls) : bash(calls);
}

}  // namespace ui
