#include "storage/text/utf8.h"

#include <utf8.h>

#include <algorithm>
#include <cstdint>

namespace storage {
namespace {

std::uint8_t byte_at(std::string_view text, std::size_t i) {
  return i < text.size() ? static_cast<std::uint8_t>(text[i]) : std::uint8_t{0};
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
  const auto wrong = utf8::find_invalid(text.begin(), text.end());
  if (wrong == text.end()) return 0;
  return 1 + static_cast<int>(std::count(text.begin(), wrong, '\n'));
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
