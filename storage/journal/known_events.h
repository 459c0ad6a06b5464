// storage/journal/known_events.h -- which events a store holds: per device the sequence numbers as
// ranges, and the hash of the newest one. Small: one range per device unless a bundle is still
// missing.
#pragma once
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "storage/disk/sha256.h"

namespace storage {

struct SeqRange {
  std::int64_t first = 0;
  std::int64_t last = 0;  // inclusive

  bool operator==(const SeqRange&) const = default;
};

// Sequence numbers as ranges: sorted, apart from each other by at least one missing number.
class SeqRanges {
 public:
  void add(std::int64_t seq) { add(SeqRange{seq, seq}); }
  void add(SeqRange range);
  [[nodiscard]] bool holds(std::int64_t seq) const;
  [[nodiscard]] bool empty() const { return ranges_.empty(); }
  [[nodiscard]] std::int64_t top() const { return empty() ? 0 : ranges_.back().last; }
  [[nodiscard]] std::int64_t count() const;
  [[nodiscard]] const std::vector<SeqRange>& ranges() const { return ranges_; }
  [[nodiscard]] SeqRanges without(const SeqRanges& other) const;
  bool operator==(const SeqRanges&) const = default;

 private:
  std::vector<SeqRange> ranges_;
};

struct Head {
  std::int64_t seq = 0;  // 0: nothing yet
  Hash hash{};

  bool operator==(const Head&) const = default;
};

struct KnownOfDevice {
  SeqRanges seqs;
  Head head;  // of the highest sequence number
};

using KnownEvents = std::map<std::string, KnownOfDevice>;
using SeqRangesByDevice = std::map<std::string, SeqRanges>;

void hold(KnownEvents& held, const std::string& device, std::int64_t seq, const Hash& hash);

[[nodiscard]] std::int64_t count(const SeqRangesByDevice& sets);

// "1-40,45,47-50"; empty text for an empty set. parse_seqs gives false for anything else.
[[nodiscard]] std::string to_text(const SeqRanges& set);
[[nodiscard]] bool parse_seqs(std::string_view text, SeqRanges& set);

}  // namespace storage
