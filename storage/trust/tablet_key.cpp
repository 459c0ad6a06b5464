#include "storage/trust/tablet_key.h"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>
#include <cstdlib>

#include "storage/disk/whole_file.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr std::string_view kKeyHead = "duskwalk key 1\nseed ";
constexpr std::string_view kKeyMiddle = "\npublic ";
constexpr std::size_t kHexOfKey = 64;
constexpr std::size_t kLargestKeyFile = 4096;

static_assert(crypto_sign_ed25519_SEEDBYTES == 32 && crypto_sign_ed25519_PUBLICKEYBYTES == 32 &&
              crypto_sign_ed25519_SECRETKEYBYTES == 64 && crypto_sign_ed25519_BYTES == 64);

void need_sodium() {
  if (sodium_init() < 0) std::abort();  // 1: it was ready already
}

const unsigned char* raw(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

Status damaged(const std::string& path) {
  return {
      Code::Damaged,
      fmt::format("{}: is no key of this program; move it away, and pair the tablets again", path)};
}

}  // namespace

std::string key_path(const std::string& store_path) { return store_path + ".key"; }

TabletKey TabletKey::from_seed(const std::array<std::uint8_t, 32>& seed) {
  need_sodium();
  TabletKey key;
  crypto_sign_ed25519_seed_keypair(key.public_.data(), key.secret_.data(), seed.data());
  return key;
}

TabletKey::~TabletKey() { sodium_memzero(secret_.data(), secret_.size()); }

std::string TabletKey::to_text() const {
  Hash seed{};
  std::copy_n(secret_.begin(), seed.size(), seed.begin());
  return fmt::format("{}{}{}{}\n", kKeyHead, hex(seed), kKeyMiddle, hex(public_));
}

// The public half is there so that a damaged seed is noticed instead of signing as somebody else.
Result<TabletKey> TabletKey::parse(const std::string& path, std::string_view text) {
  Hash seed{};
  if (!text.starts_with(kKeyHead) || !from_hex(text.substr(kKeyHead.size(), kHexOfKey), seed))
    return damaged(path);
  TabletKey key = from_seed(seed);
  if (key.to_text() != text) return damaged(path);
  return key;
}

Result<TabletKey> TabletKey::read(const std::string& store_path) {
  const std::string path = key_path(store_path);
  const auto text = read_own_file(path, kLargestKeyFile);
  if (!text.ok()) return text.status();
  return parse(path, text.value());
}

Result<TabletKey> TabletKey::read_or_make(const std::string& store_path) {
  auto there = read(store_path);
  if (there.ok() || there.status().code() != Code::NotFound) return there;
  need_sodium();
  Hash seed{};
  randombytes_buf(seed.data(), seed.size());
  TabletKey key = from_seed(seed);
  sodium_memzero(seed.data(), seed.size());
  auto part = PartFile::make(key_path(store_path), PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  if (Status written = part.value().write(key.to_text()); !written.ok()) return written;
  if (Status named = part.value().finish(PartFile::Over::Nothing); !named.ok()) return named;
  return key;
}

SignatureBytes TabletKey::sign(std::string_view text) const {
  SignatureBytes bytes{};
  crypto_sign_ed25519_detached(bytes.data(), nullptr, raw(text), text.size(), secret_.data());
  return bytes;
}

bool signature_holds(const PublicKey& key, std::string_view text, const SignatureBytes& bytes) {
  need_sodium();
  return crypto_sign_ed25519_verify_detached(bytes.data(), raw(text), text.size(), key.data()) == 0;
}

}  // namespace storage
