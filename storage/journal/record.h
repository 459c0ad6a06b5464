// storage/journal/record.h -- one event as the journal keeps it, and the bytes that are hashed.
//
// A Record is plain: the journal knows nothing of bees. The canonical form is one line of JSON
// (RFC 8259) with sorted keys and no spaces; the same record always gives the same bytes, and
// those bytes are stored and hashed as they are (storage/JOURNAL.md).
#pragma once
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/core/status.h"
#include "storage/disk/sha256.h"

namespace storage {

using engine::Code;
using engine::Result;
using engine::Status;

inline constexpr std::size_t kLargestBody = std::size_t{1} << 20;  // bytes
inline constexpr int kDeepestBody = 64;                            // brackets inside brackets

struct Record {
  std::string device;              // UUID text, 36 characters, lower case
  std::int64_t seq = 0;            // 1, 2, 3 ... per device, without gaps
  std::int64_t at_utc_ms = 0;      // wall clock, milliseconds since 1970-01-01 UTC
  int zone_offset_min = 0;         // local time minus UTC, minutes
  std::string boot_id;             // letters, digits, '-', '_', '.'; may be empty
  std::int64_t since_boot_ms = 0;  // the clock that goes on counting in suspend
  std::string kind;                // "vaporizer_set": a-z, 0-9, '_'
  std::string body;                // JSON object: sorted keys, no spaces

  bool operator==(const Record&) const = default;
};

// A record with its place in its device's chain: hash = SHA-256(prev || canonical(record)).
// The first event of a device has a prev of 32 zero bytes.
struct Sealed {
  Record record;
  Hash prev{};
  Hash hash{};

  bool operator==(const Sealed&) const = default;
};

// One of another side of a fork (storage/journal/fork_rows.h).
struct ForkRow {
  Sealed sealed;
  std::int64_t after = 0;  // how many events of the table events arrived before it
};

// Ok, or BadInput naming the field that cannot be stored.
[[nodiscard]] Status well_formed(const Record& record);

[[nodiscard]] bool is_uuid_text(std::string_view text);

// The bytes that are hashed. `record` is well formed.
[[nodiscard]] std::string canonical(const Record& record);

// The record whose canonical form is exactly `text`, or BadInput.
[[nodiscard]] Result<Record> parse_canonical(std::string_view text);

// Fills in record.body from `text` when all other fields of `record` agree with it: the quick way
// back for a reader that has the fields already. False when anything differs.
[[nodiscard]] bool take_body(std::string_view text, Record& record);

[[nodiscard]] Hash seal_hash(const Hash& prev, std::string_view canonical_bytes);
[[nodiscard]] Sealed seal(Record record, const Hash& prev);
[[nodiscard]] bool seal_holds(const Sealed& sealed);

}  // namespace storage
