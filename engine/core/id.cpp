#include "engine/core/id.h"

namespace engine {
namespace {

constexpr char kDigits[] = "0123456789abcdef";
constexpr bool dash_before(std::size_t byte) {
  return byte == 4 || byte == 6 || byte == 8 || byte == 10;
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

}  // namespace

// Field layout: RFC 9562 section 5.7.
UuidBytes uuid_v7(std::int64_t unix_ms, std::uint64_t random_a, std::uint64_t random_b) {
  UuidBytes b{};
  const auto ms = static_cast<std::uint64_t>(unix_ms);
  for (std::size_t i = 0; i < 6; ++i) b[i] = static_cast<std::uint8_t>(ms >> (40 - 8 * i));
  b[6] = static_cast<std::uint8_t>(0x70 | ((random_a >> 8) & 0x0f));
  b[7] = static_cast<std::uint8_t>(random_a);
  for (std::size_t i = 0; i < 8; ++i)
    b[8 + i] = static_cast<std::uint8_t>(random_b >> (56 - 8 * i));
  b[8] = static_cast<std::uint8_t>(0x80 | (b[8] & 0x3f));
  return b;
}

std::string uuid_text(const UuidBytes& bytes) {
  std::string out;
  out.reserve(36);
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (dash_before(i)) out += '-';
    out += kDigits[bytes[i] >> 4];
    out += kDigits[bytes[i] & 15];
  }
  return out;
}

std::optional<UuidBytes> uuid_from_text(std::string_view text) {
  if (text.size() != 36) return std::nullopt;
  UuidBytes bytes{};
  std::size_t at = 0;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (dash_before(i) && text[at++] != '-') return std::nullopt;
    const int high = digit(text[at]);
    const int low = digit(text[at + 1]);
    if (high < 0 || low < 0) return std::nullopt;
    bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
    at += 2;
  }
  return bytes;
}

}  // namespace engine
