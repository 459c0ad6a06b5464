// storage/trust/tablet_key.h -- the key with which a tablet signs what it wrote: Ed25519 (RFC
// 8032), by libsodium.
//
// It lies beside the store, in a file of its own for its owner alone, and in no backup and no
// bundle: whoever has it can write in this tablet's name. A store that goes on under a new id keeps
// its key; one that was made from a backup gets another.
//
//   duskwalk key 1
//   seed 64 hex digits
//   public 64 hex digits
#pragma once
#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/core/status.h"
#include "storage/disk/sha256.h"

namespace storage {

using PublicKey = std::array<std::uint8_t, 32>;  // written as hex() writes a hash
using SignatureBytes = std::array<std::uint8_t, 64>;

class TabletKey {
 public:
  // The key of the store at that path. NotFound: it has none; Damaged: the file is no key, and is
  // left as it is. A link or a pipe in its place is never opened.
  [[nodiscard]] static engine::Result<TabletKey> read(const std::string& store_path);
  // The same, and a new one where there is none: on disk before it comes back.
  [[nodiscard]] static engine::Result<TabletKey> read_or_make(const std::string& store_path);
  // For tests and the reference values of RFC 8032.
  [[nodiscard]] static TabletKey from_seed(const std::array<std::uint8_t, 32>& seed);

  ~TabletKey();  // the secret is wiped
  TabletKey(const TabletKey&) = default;
  TabletKey& operator=(const TabletKey&) = default;

  [[nodiscard]] const PublicKey& public_key() const { return public_; }
  [[nodiscard]] SignatureBytes sign(std::string_view text) const;

 private:
  TabletKey() = default;
  [[nodiscard]] static engine::Result<TabletKey> parse(const std::string& path,
                                                       std::string_view text);
  [[nodiscard]] std::string to_text() const;

  std::array<std::uint8_t, 64> secret_{};  // the seed, then the public key, as libsodium wants it
  PublicKey public_{};
};

[[nodiscard]] std::string key_path(const std::string& store_path);

// Whether `bytes` were made of `text` with the secret that belongs to `key`.
[[nodiscard]] bool signature_holds(const PublicKey& key, std::string_view text,
                                   const SignatureBytes& bytes);

}  // namespace storage
