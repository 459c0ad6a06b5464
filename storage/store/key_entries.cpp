#include "storage/store/key_entries.h"

#include <fmt/format.h>

#include <sstream>
#include <vector>

namespace storage {
namespace {

constexpr const char* kKeyKinds = "tablet_";
constexpr const char* kNote = "keys";
constexpr const char* kNoteKey = "keys noted";

// The key entries among the first so many of the table events.
struct Noted {
  std::int64_t arrivals = 0;
  std::vector<Sealed> entries;
};

// The row says how many entries were looked through, then tablet and number of each that was found.
Noted noted_in(const Journal& journal) {
  if (journal.damage()) return {};
  Noted noted;
  for (const KeptRow& row : journal.kept_rows(kNote)) {
    std::istringstream words(row.value);
    words >> noted.arrivals;
    std::string device;
    while (words >> device) {
      std::int64_t seq = 0;
      if (!(words >> seq)) return {};
      auto entry = journal.entry_at(device, seq);
      if (!entry || !entry->record.kind.starts_with(kKeyKinds)) return {};
      noted.entries.push_back(std::move(*entry));
    }
    if (!words.eof() || noted.arrivals < 0 || noted.arrivals > journal.size()) return {};
  }
  return noted;
}

}  // namespace

Status each_key_entry(const Journal& journal, const std::function<void(const Sealed&)>& take) {
  const Noted noted = noted_in(journal);
  for (const Sealed& s : noted.entries) take(s);
  return journal.replay_kinds(kKeyKinds, noted.arrivals, take);
}

Status note_key_entries(Journal& journal) {
  std::string value = fmt::format("{}", journal.size());
  const Status read = each_key_entry(journal, [&](const Sealed& s) {
    if (journal.hash_at(s.record.device, s.record.seq) == s.hash)
      value += fmt::format(" {} {}", s.record.device, s.record.seq);
  });
  if (!read.ok()) return read;
  const KeptRow row{kNoteKey, std::move(value)};
  return journal.keep_rows({&row, 1});
}

}  // namespace storage
