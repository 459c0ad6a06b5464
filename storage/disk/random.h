// storage/disk/random.h -- new ids: random ones for the field, repeatable ones for play and tests.
//
// Both are version-7 UUIDs (RFC 9562) of the millisecond they are given, so ids sort by when they
// were made.
#pragma once
#include <cstdint>
#include <random>

#include "engine/core/id.h"

namespace storage {

// From the system's random source (libsodium). Ends the program when the system has none: ids
// that might collide between tablets would be worse than no program.
[[nodiscard]] engine::UuidBytes new_uuid(std::int64_t unix_ms);

// The same seed gives the same ids on every machine. Never for real entries.
class IdMaker {
 public:
  explicit IdMaker(std::uint64_t seed) : numbers_(seed) {}
  [[nodiscard]] engine::UuidBytes operator()(std::int64_t unix_ms);

 private:
  std::mt19937_64 numbers_;  // its sequence is fixed by the C++ standard ([rand.predef])
};

}  // namespace storage
