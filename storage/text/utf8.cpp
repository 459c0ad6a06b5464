#include "storage/text/utf8.h"

#include <algorithm>
#include <cstdint>

namespace storage {
namespace {

std::uint8_t byte_at(std::string_view text, std::size_t i) {
  return i < text.size() ? static_cast<std::uint8_t>(text[i]) : std::uint8_t{0};
}

// Bytes of the character at i, or 0 when there is none (RFC 3629 section 4, table of well-formed
// byte sequences).
std::size_t length_at(std::string_view text, std::size_t i) {
  const std::uint8_t a = byte_at(text, i), b = byte_at(text, i + 1);
  const auto follows = [&](std::size_t k) { return (byte_at(text, i + k) & 0xc0) == 0x80; };
  const auto in = [](std::uint8_t x, int low, int high) { return x >= low && x <= high; };
  if (a < 0x80) return 1;
  if (in(a, 0xc2, 0xdf)) return follows(1) ? 2 : 0;
  if (a == 0xe0) return in(b, 0xa0, 0xbf) && follows(2) ? 3 : 0;
  if (a == 0xed) return in(b, 0x80, 0x9f) && follows(2) ? 3 : 0;
  if (in(a, 0xe1, 0xef)) return follows(1) && follows(2) ? 3 : 0;
  if (a == 0xf0) return in(b, 0x90, 0xbf) && follows(2) && follows(3) ? 4 : 0;
  if (in(a, 0xf1, 0xf3)) return follows(1) && follows(2) && follows(3) ? 4 : 0;
  if (a == 0xf4) return in(b, 0x80, 0x8f) && follows(2) && follows(3) ? 4 : 0;
  return 0;
}

// Bytes of the white space or control character at the front, or 0.
std::size_t space_at(std::string_view text, std::size_t i) {
  const std::uint8_t a = byte_at(text, i);
  if (a <= 0x20 || a == 0x7f) return 1;
  if (text.substr(i, 2) == "\xc2\xa0") return 2;  // no-break space
  for (const std::string_view wide : {"\xef\xbb\xbf", "\xe2\x80\xaf", "\xe2\x80\x8b"})
    if (text.substr(i, 3) == wide) return 3;  // byte order mark, narrow and zero-width spaces
  return 0;
}

}  // namespace

int first_line_not_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = length_at(text, i);
    if (n == 0) {
      const auto until = text.substr(0, i);
      return 1 + static_cast<int>(std::count(until.begin(), until.end(), '\n'));
    }
    i += n;
  }
  return 0;
}

std::string one_line(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  bool gap = false;
  for (std::size_t i = 0; i < text.size();) {
    if (const std::size_t n = space_at(text, i); n != 0) {
      gap = !out.empty();
      i += n;
      continue;
    }
    if (gap) out += ' ';
    gap = false;
    out += text[i++];
  }
  return out;
}

std::string trimmed(std::string_view text) {
  while (!text.empty()) {
    const std::size_t n = space_at(text, 0);
    if (n == 0) break;
    text.remove_prefix(n);
  }
  for (bool more = true; more && !text.empty();) {
    more = false;
    for (std::size_t n = 1; n <= 3 && n <= text.size(); ++n)
      if (space_at(text, text.size() - n) == n) {
        text.remove_suffix(n);
        more = true;
        break;
      }
  }
  return std::string(text);
}

std::string folded(std::string_view text) {
  std::string out = one_line(text);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const std::uint8_t c = byte_at(out, i);
    if (c >= 'A' && c <= 'Z') out[i] = static_cast<char>(c + 32);
    // Latin-1 capitals are C3 80 to C3 9E without the multiplication sign (C3 97).
    if (c == 0xc3 && byte_at(out, i + 1) >= 0x80 && byte_at(out, i + 1) <= 0x9e &&
        byte_at(out, i + 1) != 0x97)
      out[i + 1] = static_cast<char>(byte_at(out, i + 1) + 32);
  }
  return out;
}

}  // namespace storage
