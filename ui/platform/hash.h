// ui/platform/hash.h -- a fast 64-bit hash of bytes in memory.
//
// For comparing two frames of the same run, never for storage: it depends on the byte order of the
// machine and promises nothing against an adversary. The mixing step is the 64-bit finaliser known
// from murmur-style hashes (multiply by an odd constant, fold the high half down).
#pragma once
#include <cstddef>
#include <cstdint>
#include <cstring>

namespace ui {

[[nodiscard]] constexpr std::uint64_t mix(std::uint64_t seed, std::uint64_t word) {
  std::uint64_t h = (seed ^ word) * 0x9e3779b97f4a7c15u;  // 2^64 / golden ratio, odd
  h ^= h >> 32;
  h *= 0xff51afd7ed558ccdu;
  return h ^ (h >> 29);
}

[[nodiscard]] inline std::uint64_t hash_bytes(std::uint64_t seed, const void* data,
                                              std::size_t size) {
  const auto* bytes = static_cast<const unsigned char*>(data);
  std::uint64_t h = mix(seed, size);
  while (size >= sizeof(std::uint64_t)) {
    std::uint64_t word = 0;
    std::memcpy(&word, bytes, sizeof word);
    h = mix(h, word);
    bytes += sizeof word;
    size -= sizeof word;
  }
  std::uint64_t rest = 0;
  if (size > 0) std::memcpy(&rest, bytes, size);
  return mix(h, rest);
}

}  // namespace ui
