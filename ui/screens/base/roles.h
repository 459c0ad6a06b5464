// ui/screens/base/roles.h -- the five roles of text, and the one step of space.
//
// A role has one size on the glass, whatever its box: what does not fit is a fault that the audit
// reports (ui/touch/faults.h), and the page has to be composed anew. Heights of capitals: number
// 15.6 mm, headline 7.2, title 5.1, body 3.1, small 2.3.
#pragma once
#include <string>
#include <string_view>

#include "ui/touch/text.h"

namespace ui {

enum class Role {
  Small,     // a caption beside a picture that says the same
  Body,      // supporting words, at most one line in a walk
  Title,     // what a thing is called; everything one must read to act
  Headline,  // the verdict, the act, a cloth's time
  Number     // time left, a dose: digits, : + - . and g, oz
};

[[nodiscard]] constexpr Size size_of(Role role) { return static_cast<Size>(role); }

struct Saying {
  Align align = Align::Left;
  Place place = Place::Middle;
  bool quiet = false;
  bool tight = false;  // digits and capitals only
};

// Draws in the role's size and no other; returns the rectangle of the letters.
Rect say(Touch& t, const Rect& rect, std::string_view words, Role role, const Saying& how = {});

[[nodiscard]] float high(const Touch& t, Role role);  // of one line
[[nodiscard]] float wide(const Touch& t, std::string_view words, Role role);
// Of digits and capitals alone.
[[nodiscard]] float tight_high(const Touch& t, Role role);
// The larger of the two roles if the words stand on one line of that width, else the smaller: for
// names, which the keeper chooses.
[[nodiscard]] Role role_for(const Touch& t, std::string_view words, float width, Role larger,
                            Role smaller);

// The words on one line of that width: what does not stand there is left away, with an ellipsis.
// For names in a list, where the page behind the row has them in full.
[[nodiscard]] std::string shortened(const Touch& t, std::string_view words, float width, Role role);

// Space comes in steps of 3 mm.
[[nodiscard]] inline float step(const Touch& t, float n = 1) { return t.mm(3 * n); }

}  // namespace ui
