#include "ui/screens/base/roles.h"

#include <cmath>

namespace ui {

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

}  // namespace ui
