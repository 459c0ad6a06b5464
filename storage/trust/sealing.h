// storage/trust/sealing.h -- bytes that only whoever knows a passphrase can read: Argon2id
// (RFC 9106) makes a key of it, and libsodium's secretstream (XChaCha20-Poly1305) seals pieces
// under that key, so that none can be changed, left out, repeated or put elsewhere without being
// noticed.
//
//   "duskwalk sealed 1" and a line feed
//   8 bytes passes and 8 bytes memory of Argon2id, little-endian; 16 bytes salt
//   24 bytes, the stream's header; then pieces of 64 KiB, each 17 bytes longer sealed, the last one
//   marked as the last and mostly shorter. Each is sealed together with all of the head.
#pragma once
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

// What a guess of the passphrase costs: passes over so many bytes of memory.
struct SealCost {
  std::uint64_t passes = 3;
  std::uint64_t memory = std::uint64_t{128} << 20;
};
// A file that asks for more is none of ours: it would take the memory of whoever reads it.
inline constexpr SealCost kMostSealCost{8, std::uint64_t{512} << 20};
inline constexpr std::size_t kShortestPassphrase = 8;  // bytes

// `read` fills what it is given and says how many bytes that were; fewer only at the end. `write`
// takes what comes out. Both give a failure Status when they cannot. BadInput: the passphrase is
// too short.
using SealRead = std::function<engine::Result<std::size_t>(char* to, std::size_t most)>;
using SealWrite = std::function<engine::Status(std::string_view)>;
[[nodiscard]] engine::Status seal(const std::string& passphrase, const SealRead& read,
                                  const SealWrite& write, const SealCost& cost = {});
// BadInput: these bytes are not sealed, or with another passphrase (which of the two nobody can
// tell once the head is whole); Damaged: they were changed or cut behind the first piece. What was
// written until then is worth nothing.
[[nodiscard]] engine::Status unseal(const std::string& passphrase, const SealRead& read,
                                    const SealWrite& write, const SealCost& most = kMostSealCost);

[[nodiscard]] bool is_sealed(std::string_view first_bytes);

// A whole file into a new one; `to` appears when it was read back and gives the same bytes.
[[nodiscard]] engine::Status seal_file(const std::string& from, const std::string& to,
                                       const std::string& passphrase, const SealCost& cost = {});
[[nodiscard]] engine::Status unseal_file(const std::string& from, const std::string& to,
                                         const std::string& passphrase);
[[nodiscard]] bool is_sealed_file(const std::string& path);

// The first line of a file, without its end. BadInput: it is too short or too long.
[[nodiscard]] engine::Result<std::string> read_passphrase(const std::string& path);

}  // namespace storage
