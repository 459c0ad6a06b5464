#include "storage/journal/progress_mark.h"

#include <fmt/format.h>

#include <charconv>

#include "storage/journal/record.h"

namespace storage {
namespace {

constexpr std::string_view kFirstLine = "duskwalk tip 1";
constexpr std::string_view kCheck = "check ";

// The text up to `end_of`, which is cut away with it; nothing when it does not occur.
std::optional<std::string_view> cut(std::string_view& text, char end_of) {
  const std::size_t at = text.find(end_of);
  if (at == std::string_view::npos) return std::nullopt;
  const std::string_view front = text.substr(0, at);
  text.remove_prefix(at + 1);
  return front;
}

bool take_held(std::string_view line, ProgressMark& tip) {
  const auto device = cut(line, ' ');
  const auto seqs = cut(line, ' ');
  KnownOfDevice held;
  if (!device || !seqs || !is_uuid_text(*device) || !parse_seqs(*seqs, held.seqs)) return false;
  held.head.seq = held.seqs.top();
  if (!from_hex(line, held.head.hash)) return false;
  tip.held[std::string(*device)] = held;
  return true;
}

bool take_line(std::string_view line, ProgressMark& tip) {
  const auto word = cut(line, ' ');
  if (!word) return false;
  if (*word == "held") return take_held(line, tip);
  if (*word == "device") {
    tip.device = line;
    return is_uuid_text(line);
  }
  if (*word != "arrivals" && *word != "sides") return false;
  const char* const end = line.data() + line.size();
  std::int64_t& number = *word == "sides" ? tip.sides : tip.arrivals;
  return std::from_chars(line.data(), end, number).ptr == end;
}

// The lines above the check line when it proves them whole.
std::optional<std::string_view> proven(std::string_view text) {
  const std::size_t at = text.find("\ncheck ");
  if (at == std::string_view::npos) return std::nullopt;
  const std::string_view lines = text.substr(0, at + 1);
  Hash check{};
  const std::string_view sum = text.substr(at + 1 + kCheck.size()).substr(0, 64);
  if (!from_hex(sum, check) || sha256(lines) != check) return std::nullopt;
  return lines;
}

}  // namespace

std::string to_text(const ProgressMark& tip) {
  std::string text =
      fmt::format("{}\ndevice {}\narrivals {}\n", kFirstLine, tip.device, tip.arrivals);
  for (const auto& [device, held] : tip.held) {
    text += fmt::format("held {} {} {}\n", device, to_text(held.seqs), hex(held.head.hash));
  }
  if (tip.sides > 0) text += fmt::format("sides {}\n", tip.sides);
  return text + fmt::format("{}{}\n", kCheck, hex(sha256(text)));
}

std::optional<ProgressMark> parse_tip(std::string_view text) {
  auto lines = proven(text);
  if (!lines || cut(*lines, '\n') != kFirstLine) return std::nullopt;
  ProgressMark tip;
  while (!lines->empty()) {
    const auto line = cut(*lines, '\n');
    if (!line || !take_line(*line, tip)) return std::nullopt;
  }
  if (tip.device.empty()) return std::nullopt;
  return tip;
}

}  // namespace storage
