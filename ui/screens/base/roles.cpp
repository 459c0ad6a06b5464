#include "ui/screens/base/roles.h"

#include <cmath>

namespace ui {

namespace {

constexpr const char* kEllipsis = "\u2026";

// Of a letter that takes several bytes, those after the first.
bool goes_on(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

}  // namespace

Rect say(Touch& t, const Rect& rect, std::string_view words, Role role, const Saying& how) {
  const Size size = size_of(role);
  return text(t, rect, words, {size, how.align, how.place, how.tight, how.quiet, size});
}

float high(const Touch& t, Role role) { return line_height(t, size_of(role)); }

float wide(const Touch& t, std::string_view words, Role role) {
  return std::ceil(text_width(t, words, size_of(role))) + 1;
}

float tight_high(const Touch& t, Role role) { return digit_height(t, size_of(role)); }

Role role_for(const Touch& t, std::string_view words, float width, Role larger, Role smaller) {
  return wide(t, words, larger) <= width ? larger : smaller;
}

std::string shortened(const Touch& t, std::string_view words, float width, Role role) {
  if (wide(t, words, role) <= width) return std::string(words);
  std::string kept(words);
  while (!kept.empty() && wide(t, kept + kEllipsis, role) > width) {
    while (!kept.empty() && goes_on(kept.back())) kept.pop_back();
    if (!kept.empty()) kept.pop_back();
    while (!kept.empty() && kept.back() == ' ') kept.pop_back();
  }
  return kept + kEllipsis;
}

}  // namespace ui
