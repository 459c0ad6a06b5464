// storage/journal/progress_mark.h -- the small file beside the store that says how far it got.
//
// Written after each durable commit and never flushed by itself, so it can be old or torn after a
// power cut (then it is ignored or harmless) but never ahead of the store. When it names an event
// that the store does not hold, the store has lost it. Format: storage/JOURNAL.md.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "storage/journal/known_events.h"

namespace storage {

struct ProgressMark {
  std::string device;         // whose store it is
  std::int64_t arrivals = 0;  // how many events the store had taken
  KnownEvents held;
  std::int64_t sides = 0;  // and how many of other sides of forks (storage/journal/fork_rows.h)
};

[[nodiscard]] std::string to_text(const ProgressMark& tip);

// Nothing when the text is torn or not a tip. Bytes after the check line are left over from a
// longer tip and ignored.
[[nodiscard]] std::optional<ProgressMark> parse_tip(std::string_view text);

}  // namespace storage
