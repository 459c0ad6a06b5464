// storage/merge_rules.h -- which of the entries that came can be taken, and the lines about the
// rest. Inside storage/ only.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "engine/farm/event.h"
#include "storage/journal.h"

namespace storage {

// Per device the last number that no gap comes before; 0: its first one is missing.
[[nodiscard]] std::map<std::string, std::int64_t> last_before_gap(const Held& held);

// What was left out of one device's entries.
struct LeftOut {
  std::int64_t count = 0;
  std::string first;  // why
};
using LeftOuts = std::map<std::string, LeftOut>;  // by device

// Takes out of `events` (sorted by device and number) what this version cannot read, and what this
// tablet itself wrote behind a gap: its own numbers must never run ahead. The rest as events, one
// for each that stays.
[[nodiscard]] std::vector<engine::Event> take_fit(const Journal& journal,
                                                  std::vector<Sealed>& events, LeftOuts& left);
// One line a device.
[[nodiscard]] std::vector<std::string> lines_of(const LeftOuts& left);

[[nodiscard]] bool has_gaps(const Held& held);

// One line a device.
[[nodiscard]] std::vector<std::string> fork_lines(const std::vector<Fork>& forks);
[[nodiscard]] std::vector<std::string> gap_lines(const Held& held);

}  // namespace storage
