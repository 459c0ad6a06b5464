#include "storage/text/named_id.h"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <string>

namespace storage {

engine::UuidBytes named_id(const std::vector<std::string_view>& lines) {
  std::string text;
  for (const std::string_view line : lines) {
    text += line;
    text += '\n';
  }
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(text.data()), text.size());
  engine::UuidBytes id{};
  std::copy_n(hash.begin(), id.size(), id.begin());
  id[6] = static_cast<std::uint8_t>((id[6] & 0x0fU) | 0x80U);
  id[8] = static_cast<std::uint8_t>((id[8] & 0x3fU) | 0x80U);
  return id;
}

}  // namespace storage
