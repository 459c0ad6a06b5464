#include "storage/disk/sha256.h"

#include <sodium.h>

namespace storage {

struct Sha256::State {
  crypto_hash_sha256_state sum;
};

Sha256::Sha256() : state_(std::make_unique<State>()) { crypto_hash_sha256_init(&state_->sum); }
Sha256::~Sha256() = default;

void Sha256::add(std::string_view bytes) {
  crypto_hash_sha256_update(&state_->sum, reinterpret_cast<const unsigned char*>(bytes.data()),
                            bytes.size());
}

Hash Sha256::finish() {
  Hash hash{};
  crypto_hash_sha256_final(&state_->sum, hash.data());
  return hash;
}

Hash sha256(std::string_view bytes) {
  Sha256 sum;
  sum.add(bytes);
  return sum.finish();
}

std::string hex(const Hash& hash) {
  constexpr char kDigits[] = "0123456789abcdef";
  std::string text;
  text.reserve(2 * hash.size());
  for (const std::uint8_t byte : hash) {
    text += kDigits[byte >> 4];
    text += kDigits[byte & 15];
  }
  return text;
}

bool from_hex(std::string_view text, Hash& hash) {
  if (text.size() != 2 * hash.size()) return false;
  const auto digit = [](char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return -1;
  };
  for (std::size_t i = 0; i < hash.size(); ++i) {
    const int high = digit(text[2 * i]);
    const int low = digit(text[2 * i + 1]);
    if (high < 0 || low < 0) return false;
    hash[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return true;
}

}  // namespace storage
