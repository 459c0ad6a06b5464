#include "ui/touch/words.h"

namespace ui {

namespace {

void replace(std::string& text, std::string_view what, std::string_view with) {
  const auto at = text.find(what);
  if (at != std::string::npos) text.replace(at, what.size(), with);
}

std::size_t letter_bytes(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  const std::size_t want = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC0 ? 2 : 1;
  std::size_t n = 1;
  while (n < want && at + n < text.size() &&
         (static_cast<unsigned char>(text[at + n]) & 0xC0U) == 0x80U) {
    ++n;
  }
  return n;
}

}  // namespace

std::string filled(std::string_view pattern, std::string_view a, std::string_view b) {
  std::string text(pattern);
  replace(text, "{a}", a);
  replace(text, "{b}", b);
  return text;
}

std::vector<std::string> letters_of(std::string_view text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n = letter_bytes(text, at);
    out.emplace_back(text.substr(at, n));
    at += n;
  }
  return out;
}

}  // namespace ui
