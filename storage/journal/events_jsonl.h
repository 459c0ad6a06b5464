// storage/journal/events_jsonl.h -- sealed events as lines of text, and back: what a merge needs.
//
// One JSON object a line (RFC 8259, UTF-8, LF):
//   {"event":CANONICAL,"hash":"64 hex digits","prev":"64 hex digits"}
// CANONICAL is, byte for byte, what was hashed (storage/journal/record.h), so that any reader can
// check hash = SHA-256(prev || CANONICAL) with common tools and no knowledge of bees.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "storage/journal/record.h"

namespace storage {

[[nodiscard]] std::string events_jsonl(std::span<const Sealed> events);

// Damaged, with the number of the line, when a line is no such object or its hash does not hold.
[[nodiscard]] Result<std::vector<Sealed>> read_events_jsonl(std::string_view text);

// The same piece by piece, keeping every whole entry and counting the lines that are none: one
// flipped bit costs one entry. A line longer than any entry is passed over without being kept.
class EventLines {
 public:
  void take(std::string_view piece);
  void end();  // after the last piece: a line that was not ended is no whole one

  [[nodiscard]] std::vector<Sealed>& events() { return events_; }
  [[nodiscard]] std::size_t bad() const { return bad_; }              // lines
  [[nodiscard]] std::size_t first_bad() const { return first_bad_; }  // its number, from 1

 private:
  void end_line(bool whole);

  std::string line_;
  bool too_long_ = false;
  std::size_t number_ = 1, bad_ = 0, first_bad_ = 0;
  std::vector<Sealed> events_;
};

}  // namespace storage
