// storage/disk/sha256.h -- SHA-256 (FIPS 180-4) of bytes, by libsodium.
#pragma once
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace storage {

using Hash = std::array<std::uint8_t, 32>;

// Adds up bytes that come in pieces; finish() may be called once.
class Sha256 {
 public:
  Sha256();
  ~Sha256();
  Sha256(const Sha256&) = delete;
  Sha256& operator=(const Sha256&) = delete;

  void add(std::string_view bytes);
  [[nodiscard]] Hash finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

[[nodiscard]] Hash sha256(std::string_view bytes);

// Lower-case hexadecimal, 64 characters; and back (false when `text` is anything else).
[[nodiscard]] std::string hex(const Hash& hash);
[[nodiscard]] bool from_hex(std::string_view text, Hash& hash);

}  // namespace storage
