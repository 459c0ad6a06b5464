#include "ui/commands/say.h"

#include <unistd.h>

#include <cstdint>

namespace ui {
namespace {

// One character of a text: the bytes it takes, and its code point; none when they are no UTF-8.
struct Character {
  std::size_t bytes = 1;
  char32_t code = 0;
  bool whole = false;
};

// RFC 3629, section 4: how many bytes follow, and the smallest code point that needs so many.
struct Lead {
  unsigned char mask, bits;
  std::size_t bytes;
  char32_t least;
};
constexpr Lead kLeads[] = {
    {0x80, 0x00, 1, 0}, {0xe0, 0xc0, 2, 0x80}, {0xf0, 0xe0, 3, 0x800}, {0xf8, 0xf0, 4, 0x10000}};

Character first_of(std::string_view text) {
  const auto byte = [&](std::size_t at) { return static_cast<unsigned char>(text[at]); };
  for (const Lead& lead : kLeads) {
    if ((byte(0) & lead.mask) != lead.bits || text.size() < lead.bytes) continue;
    char32_t code = byte(0) & static_cast<unsigned char>(~lead.mask);
    for (std::size_t i = 1; i < lead.bytes; ++i) {
      if ((byte(i) & 0xc0) != 0x80) return {};
      code = code << 6 | (byte(i) & 0x3f);
    }
    const bool surrogate = code >= 0xd800 && code <= 0xdfff;
    if (code < lead.least || code > 0x10ffff || surrogate) return {};
    return {lead.bytes, code, true};
  }
  return {};
}

// C0, DEL and C1 (ECMA-48); the line ends of Unicode; the marks of its bidirectional algorithm.
bool is_obeyed(char32_t c) {
  return c < 0x20 || (c >= 0x7f && c <= 0x9f) || c == 0x061c || c == 0x200e || c == 0x200f ||
         (c >= 0x2028 && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

template <class Instead>
std::string shown(std::string_view text, std::string_view stay, Instead instead) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const Character c = first_of(text);
    const std::string_view bytes = text.substr(0, c.bytes);
    const bool stays = bytes.size() == 1 && stay.find(bytes[0]) != stay.npos;
    if (c.whole && (stays || !is_obeyed(c.code)))
      out += bytes;
    else
      out += instead(c);
    text.remove_prefix(bytes.size());
  }
  return out;
}

std::string question_mark(const Character&) { return "?"; }

}  // namespace

std::string for_terminal(std::string_view text) { return shown(text, "", question_mark); }

void print_bytes(std::string_view bytes) {
  if (::isatty(STDOUT_FILENO) != 0)
    fmt::print("{}", lines_for_terminal(bytes));
  else
    (void)std::fwrite(bytes.data(), 1, bytes.size(), stdout);  // the flush at the end is looked at
}

int print_text(std::string_view lines) {
  fmt::print("{}", lines_for_terminal(lines));
  return 0;
}

std::string lines_for_terminal(std::string_view text) { return shown(text, "\n", question_mark); }

// All code points that are obeyed lie below 0x10000, and bytes that are no UTF-8 are not in our
// JSON.
std::string json_for_terminal(std::string_view json) {
  return shown(json, "\n", [](const Character& c) {
    return c.whole ? fmt::format("\\u{:04x}", static_cast<std::uint32_t>(c.code))
                   : std::string("?");
  });
}

}  // namespace ui
