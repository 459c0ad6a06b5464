// ui/commands/call_list.h -- the program's calls as the command-line parser has them, so that the
// man page and the completions of shells never say anything else.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
}

namespace ui {

// The names of values that a shell can complete; the parser's help shows them too.
inline constexpr const char* kFileValue = "FILE";
inline constexpr const char* kFolderValue = "FOLDER";

struct Switch {
  std::vector<std::string> names;    // "-h", "--help"; of a word without dashes its own name
  std::string says;                  // what it is for, without a full stop
  std::string value;                 // "FILE", "DAY"; empty: it takes none
  std::vector<std::string> choices;  // the values that there are; empty: any
  bool word = false;                 // a word in its place, without a dash
  bool required = false;
  bool many = false;  // several values
};

struct CommandCall {
  std::string name;  // empty: the program alone
  std::string says;
  std::vector<Switch> switches;
};

// The program alone first, then its commands in their order.
[[nodiscard]] std::vector<CommandCall> call_list(const CLI::App& program);

// A page of the manual, section 1, in the macros of man(7).
[[nodiscard]] std::string man_page(const std::vector<CommandCall>& calls, std::string_view version);

// "bash", "zsh" or "fish": a script for that shell.
[[nodiscard]] std::string completion(const std::vector<CommandCall>& calls, std::string_view shell);

}  // namespace ui
