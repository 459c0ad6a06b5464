#include "storage/bundle/exchange_notes.h"

#include <fmt/format.h>

#include "storage/journal/record.h"

namespace storage {

namespace {

constexpr std::string_view kFirstLine = "duskwalk exchange 2\n";

std::string_view cut(std::string_view& text, char end) {
  const std::size_t at = text.find(end);
  const std::string_view front = text.substr(0, at);
  text.remove_prefix(at == text.npos ? text.size() : at + 1);
  return front;
}

bool take_line(std::string_view line, ExchangeNotes& notes) {
  const std::string_view word = cut(line, ' ');
  const std::string name(cut(line, ' '));
  if (!is_bundle_name(name)) return false;
  if (word == "side" || word == "refused") {
    Hash hash{};
    if (!from_hex(line, hash)) return false;
    if (word == "side") return notes[name].sides.insert(hash).second;
    notes[name].refused = hash;
    return true;
  }
  const std::string device(cut(line, ' '));
  SeqRanges seqs;
  if (word != "bundle" || !is_uuid_text(device) || !parse_seqs(line, seqs)) return false;
  notes[name].numbers[device] = std::move(seqs);
  return true;
}

}  // namespace

bool is_bundle_name(std::string_view name) {
  constexpr std::size_t kLongest = 100;  // ours have 45 to 49
  return name.starts_with("duskwalk-") && name.size() <= kLongest &&
         name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == name.npos;
}

std::string to_text(const ExchangeNotes& notes) {
  std::string text(kFirstLine);
  for (const auto& [name, note] : notes) {
    for (const auto& [device, seqs] : note.numbers)
      text += fmt::format("bundle {} {} {}\n", name, device, to_text(seqs));
    if (note.refused) text += fmt::format("refused {} {}\n", name, hex(*note.refused));
    for (const Hash& hash : note.sides) text += fmt::format("side {} {}\n", name, hex(hash));
  }
  return text + fmt::format("check {}\n", hex(sha256(text)));
}

ExchangeNotes parse_exchange_notes(std::string_view text) {
  const std::size_t check = text.rfind("check ");
  Hash sum{};
  if (!text.starts_with(kFirstLine) || check == text.npos ||
      !from_hex(text.substr(check + 6, 64), sum) || sha256(text.substr(0, check)) != sum)
    return {};
  ExchangeNotes notes;
  text = text.substr(kFirstLine.size(), check - kFirstLine.size());
  while (!text.empty())
    if (!take_line(cut(text, '\n'), notes)) return {};
  return notes;
}

}  // namespace storage
