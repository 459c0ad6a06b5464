// storage/events_jsonl.h -- sealed events as lines of text, and back: what a merge needs.
//
// One JSON object a line (RFC 8259, UTF-8, LF):
//   {"event":CANONICAL,"hash":"64 hex digits","prev":"64 hex digits"}
// CANONICAL is, byte for byte, what was hashed (storage/record.h), so that any reader can check
// hash = SHA-256(prev || CANONICAL) with common tools and no knowledge of bees.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "storage/record.h"

namespace storage {

[[nodiscard]] std::string events_jsonl(std::span<const Sealed> events);

// Damaged, with the number of the line, when a line is no such object or its hash does not hold.
[[nodiscard]] Result<std::vector<Sealed>> read_events_jsonl(std::string_view text);

}  // namespace storage
