// The manual's page, in the macros of man(7): from the parser's data come the calls and options,
// and what no parser knows (files, exit codes, cautions) stands here.
#include <fmt/format.h>

#include "ui/commands/call_list.h"

namespace ui {
namespace {

// groff(7): a backslash begins an escape, a plain hyphen may become a typographic one, and a line
// that begins with a point or an apostrophe is an order.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\')
      out += "\\e";
    else if (c == '-')
      out += "\\-";
    else if ((c == '.' || c == '\'') && out.empty())
      out += std::string("\\&") + c;
    else
      out += c;
  }
  return out;
}

// As a sentence.
std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (!text.ends_with('.')) text += '.';
  return roff(text);
}

std::string names_of(const Switch& s) {
  std::string all;
  for (const std::string& name : s.names)
    all += (all.empty() ? "" : ", ") + fmt::format("\\fB{}\\fR", roff(name));
  return all;
}

std::string value_of(const Switch& s) {
  if (s.value.empty()) return {};
  if (s.choices.empty()) return fmt::format("\\fI{}\\fR", roff(s.value));
  std::string all;
  for (const std::string& choice : s.choices)
    all += (all.empty() ? "" : "|") + fmt::format("\\fB{}\\fR", roff(choice));
  return all;
}

std::string usage(const CommandCall& call) {
  std::string line = "\\fBduskwalk\\fR";
  if (!call.name.empty()) line += fmt::format(" \\fB{}\\fR", roff(call.name));
  for (const Switch& s : call.switches) {
    if (s.names.back() == "--help") continue;
    const std::string said = s.word ? fmt::format("\\fI{}\\fR", roff(s.names.back()))
                             : s.value.empty()
                                 ? fmt::format("\\fB{}\\fR", roff(s.names.back()))
                                 : fmt::format("\\fB{}\\fR ", roff(s.names.back())) + value_of(s);
    line += s.required ? " " + said : " [" + said + "]";
    if (s.many) line += "...";
  }
  return line;
}

std::string options(const CommandCall& call) {
  std::string out;
  for (const Switch& s : call.switches) {
    if (s.names.back() == "--help") continue;
    const std::string head = s.word            ? fmt::format("\\fI{}\\fR", roff(s.names.back()))
                             : s.value.empty() ? names_of(s)
                                               : names_of(s) + " " + value_of(s);
    out += fmt::format(".TP\n{}\n{}\n", head, sentence(s.says));
  }
  return out;
}

constexpr std::string_view kAbout = R"(.SH DESCRIPTION
For a keeper of honey bees who treats colonies against varroa mites with vapor of oxalic acid: what
is due, the walk through a yard colony by colony, and the register afterwards. It needs no network.
Without a command the screens open; the commands answer the same questions in a terminal.
.PP
\fBThe label in your hand, local law and the instructions of your vaporizer decide about dose,
protection and timing.\fR Vapor of oxalic acid harms lungs, eyes and skin. This program reminds and
records; it replaces neither the label nor licensed advice.
)";

constexpr std::string_view kRest = R"(.SH FOLDERS
What a bundle, an exchange, a register or a backup goes into must be there: a stick that is not
plugged in is not replaced by a folder of its name. \fBbundle \-\-sql\fR and \fBplay \-\-out\fR fill
a folder of their own, and make it.
.SH EXIT STATUS
.TP
.B 0
It was done.
.TP
.B 1
It could not be done: a stick is full, a journal is damaged.
.TP
.B 2
The call or the input is wrong.
.PP
An error is one line on standard error; nothing is on standard output then, and nothing has changed.
.SH ENVIRONMENT
.TP
.B DUSKWALK_STORE
The store's file, where \fB\-\-store\fR does not name one.
.TP
.B DUSKWALK_ASSETS
The folder of label profiles and themes, in place of the installed one.
.SH FILES
.TP
.I $XDG_DATA_HOME/duskwalk/duskwalk.journal
The store, where neither names another. It is an SQLite file; each bundle has its format described.
)";

}  // namespace

std::string man_page(const std::vector<CommandCall>& calls, std::string_view version) {
  std::string out = fmt::format(".TH DUSKWALK 1 \"\" \"duskwalk {}\" \"User Commands\"\n", version);
  out += ".SH NAME\nduskwalk \\- yard walks against varroa mites, offline\n.SH SYNOPSIS\n.ad l\n";
  out += usage(calls.front()) + "\n";
  for (std::size_t i = 1; i < calls.size(); ++i) out += ".br\n" + usage(calls[i]) + "\n";
  out += ".ad b\n";
  out += kAbout;
  out += ".SH OPTIONS\n" + options(calls.front()) + ".SH COMMANDS\n";
  for (std::size_t i = 1; i < calls.size(); ++i)
    out += fmt::format(".SS {}\n{}\n{}", roff(calls[i].name), sentence(calls[i].says),
                       options(calls[i]));
  out += kRest;
  return out;
}

}  // namespace ui
