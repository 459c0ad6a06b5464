// storage/store/merge_rules.h -- which of the entries that came can be taken, and the lines about
// the rest. Inside storage/ only.
#pragma once
#include <map>
#include <set>
#include <string>
#include <vector>

#include "engine/events/event.h"
#include "storage/journal/journal.h"

namespace storage {

// Per device the last number that no gap comes before; 0: its first one is missing.
[[nodiscard]] std::map<std::string, std::int64_t> last_before_gap(const KnownEvents& held);

// What was left out of one device's entries.
struct LeftOut {
  std::int64_t count = 0;
  std::string first;  // why
};
using LeftOuts = std::map<std::string, LeftOut>;  // by device

// The tablets that have entries on other sides: what they write may change a fork.
[[nodiscard]] std::set<std::string> tablets_with_sides(const Journal& journal);

// Takes out of `events` what this version cannot read. The rest as events, one for each that stays.
[[nodiscard]] std::vector<engine::Event> take_fit(std::vector<Sealed>& events, LeftOuts& left);
// One line a device.
[[nodiscard]] std::vector<std::string> lines_of(const LeftOuts& left);

[[nodiscard]] std::string over_bounds_line(const std::string& device, std::int64_t entries);

// One line a device: of those whose entries are on more than one side by now, how many came.
[[nodiscard]] std::vector<std::string> fork_lines(const std::vector<Fork>& forks,
                                                  const ForkTrees& trees);
[[nodiscard]] std::vector<std::string> gap_lines(const KnownEvents& held, const ForkTrees& trees);

}  // namespace storage
