#include "ui/commands/play_script.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <optional>

namespace ui {

using engine::Code;
using engine::Status;
namespace {

constexpr std::string_view kBlank = " \t\r";

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(kBlank);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::string_view without_comment(std::string_view line) {
  for (std::size_t at = line.find('#'); at != std::string_view::npos; at = line.find('#', at + 1))
    if (at == 0 || kBlank.find(line[at - 1]) != std::string_view::npos) return line.substr(0, at);
  return line;
}

// Takes the first word off.
std::string_view word(std::string_view& text) {
  const std::size_t end = std::min(text.find_first_of(kBlank), text.size());
  const std::string_view first = text.substr(0, end);
  text = trimmed(text.substr(end));
  return first;
}

template <class Number>
std::optional<Number> number(std::string_view text) {
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

// "95s", "2.5s", "10min", "500ms".
std::optional<engine::Ms> length(std::string_view text) {
  struct Unit {
    std::string_view name;
    double ms;
  };
  for (const Unit& u :
       {Unit{"ms", 1}, Unit{"min", 60'000}, Unit{"s", 1000}, Unit{"h", 3'600'000}}) {
    if (!text.ends_with(u.name)) continue;
    const auto value = number<double>(text.substr(0, text.size() - u.name.size()));
    if (!value || !(*value >= 0) || *value * u.ms > 48 * 3'600'000.0) return std::nullopt;
    return engine::Ms{std::llround(*value * u.ms)};
  }
  return std::nullopt;
}

// "1280x800 10.1in"
bool read_screen(std::string_view text, PlayStep& step) {
  const std::string_view size = word(text);
  const std::size_t cross = size.find('x');
  if (cross == std::string_view::npos || !text.ends_with("in")) return false;
  const auto w = number<int>(size.substr(0, cross));
  const auto h = number<int>(size.substr(cross + 1));
  const auto inches = number<float>(text.substr(0, text.size() - 2));
  if (!w || !h || !inches) return false;
  step.width = *w, step.height = *h, step.inches = *inches;
  return *w >= 320 && *w <= 8192 && *h >= 320 && *h <= 8192 && *inches >= 3 && *inches <= 100;
}

Status fine_or(bool fine, std::string wrong) {
  return fine ? Status{} : Status{Code::BadInput, std::move(wrong)};
}

Status read_step(std::string_view verb, std::string_view rest, PlayStep& step) {
  const auto worded = [&](PlayAct act, const char* what) {
    step.act = act;
    step.words = std::string(rest);
    return fine_or(!rest.empty(), fmt::format("{}: {} is missing", verb, what));
  };
  if (verb == "tap") return worded(PlayAct::Tap, "the label");
  if (verb == "hold") return worded(PlayAct::Hold, "the label");
  if (verb == "see") return worded(PlayAct::See, "the text");
  if (verb == "miss") return worded(PlayAct::Miss, "the text");
  if (verb == "hear") return worded(PlayAct::Hear, "what is said");
  if (verb == "shot") return worded(PlayAct::Shot, "the name");
  if (verb == "targets") return worded(PlayAct::Targets, "the name");
  if (verb == "read") return worded(PlayAct::Read, "the sheet");
  if (verb == "scan") return worded(PlayAct::Scan, "the colony");
  if (verb == "crash" && rest.empty()) return step.act = PlayAct::Crash, Status{};
  if (verb == "screen") {
    step.act = PlayAct::Screen;
    return fine_or(read_screen(rest, step), "screen: must read like \"1280x800 10.1in\"");
  }
  if (verb == "at") {
    const auto at = engine::stamp_from_rfc3339(rest);
    step.act = PlayAct::At;
    if (at) step.at = *at;
    return fine_or(at.has_value(), "at: must be a time like 2026-08-14T19:40:00-07:00");
  }
  if (verb == "wait") {
    const auto wait = length(rest);
    step.act = PlayAct::Wait;
    if (wait) step.length = *wait;
    return fine_or(wait.has_value(), "wait: must be a time like 95s, at most 48h");
  }
  if (verb == "stick") {
    const std::string_view way = word(rest);
    if (way == "out" && rest.empty()) return step.act = PlayAct::StickOut, Status{};
    if (way == "in") return worded(PlayAct::StickIn, "the folder");
    return {Code::BadInput, "stick: must be \"stick in FOLDER\" or \"stick out\""};
  }
  return {Code::BadInput, fmt::format("there is no step \"{}\"", verb)};
}

// Shots and target lists become files: a name may not lead elsewhere.
bool leads_elsewhere(const PlayStep& step) {
  if (step.act != PlayAct::Shot && step.act != PlayAct::Targets) return false;
  return step.words.find('/') != std::string::npos || step.words.starts_with('.');
}

}  // namespace

engine::Result<std::vector<PlayStep>> read_play_script(std::string_view text) {
  std::vector<PlayStep> steps;
  std::size_t line = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view rest = trimmed(without_comment(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
    ++line;
    if (rest.empty()) continue;
    PlayStep step;
    step.line = line;
    const std::string_view verb = word(rest);
    Status read = read_step(verb, rest, step);
    if (read.ok()) read = fine_or(!leads_elsewhere(step), "a name, not a path, is wanted");
    if (!read.ok()) return {read.code(), fmt::format("line {}: {}", line, read.message())};
    steps.push_back(std::move(step));
  }
  return steps;
}

std::optional<std::string> stick_before(const std::vector<PlayStep>& steps, std::size_t next) {
  std::optional<std::string> folder;
  for (std::size_t i = 0; i < next && i < steps.size(); ++i) {
    if (steps[i].act == PlayAct::StickIn) folder = steps[i].words;
    if (steps[i].act == PlayAct::StickOut) folder.reset();
  }
  return folder;
}

}  // namespace ui
