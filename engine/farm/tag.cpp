#include "engine/farm/tag.h"

#include <cctype>

namespace engine {
namespace {

constexpr std::string_view kHead = "DW";
constexpr std::size_t kDigits = 32;

int digit_of(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::string plain(std::string_view scanned) {
  std::string out;
  for (const char c : scanned)
    if (std::isspace(static_cast<unsigned char>(c)) == 0)
      out += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return out;
}

}  // namespace

std::string tag_of(ColonyId colony) {
  constexpr const char* kHex = "0123456789ABCDEF";
  std::string out(kHead);
  for (const std::uint8_t b : colony.bytes) {
    out += kHex[b >> 4];
    out += kHex[b & 15];
  }
  return out;
}

std::optional<ColonyId> colony_of_tag(std::string_view scanned) {
  const std::string text = plain(scanned);
  if (text.size() != kHead.size() + kDigits || !text.starts_with(kHead)) return std::nullopt;
  ColonyId id;
  for (std::size_t i = 0; i < id.bytes.size(); ++i) {
    const int high = digit_of(text[kHead.size() + 2 * i]);
    const int low = digit_of(text[kHead.size() + 2 * i + 1]);
    if (high < 0 || low < 0) return std::nullopt;
    id.bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return id;
}

}  // namespace engine
