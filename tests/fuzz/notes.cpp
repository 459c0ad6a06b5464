#include "storage/bundle/bag_text.h"
#include "storage/bundle/exchange_notes.h"
#include "storage/journal/progress_mark.h"
#include "tests/fuzz/targets.h"

namespace {

// What ends the tip and the notes: with the right sum, so that more than torn texts are tried.
std::string checked(std::string_view lines) {
  return std::string(lines) + "check " + storage::hex(storage::sha256(lines)) + "\n";
}

void tip(std::string_view text) {
  const auto tip = storage::parse_tip(text);
  if (!tip) return;
  const std::string written = storage::to_text(*tip);
  const auto again = storage::parse_tip(written);
  fuzz::must(again && storage::to_text(*again) == written, "a tip is written as it was read");
}

void exchange(std::string_view text) {
  const storage::ExchangeNotes notes = storage::parse_exchange_notes(text);
  fuzz::must(storage::parse_exchange_notes(storage::to_text(notes)) == notes,
             "notes are written as they were read");
}

}  // namespace

void fuzz::notes(std::string_view bytes) {
  for (const std::string& text : {std::string(bytes), checked(bytes)}) {
    tip(text);
    exchange(text);
  }
  storage::Problems problems;
  (void)storage::parse_manifest("manifest-sha256.txt", bytes, problems);
  (void)storage::parse_info(bytes, problems);
  (void)storage::parse_oxum(bytes);
  (void)storage::why_not_declaration(bytes);
}
