// storage/journal/chain_link.h -- what hangs one event on another: its number, and the hashes of
// the event before it and of itself. Inside storage/ only.
#pragma once
#include <compare>
#include <cstdint>

#include "storage/disk/sha256.h"

namespace storage {

struct ChainLink {
  std::int64_t seq = 0;
  Hash hash{};
  Hash prev{};
  friend auto operator<=>(const ChainLink&, const ChainLink&) = default;  // by number, then hash
};

}  // namespace storage
