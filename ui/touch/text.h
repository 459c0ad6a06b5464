// ui/touch/text.h -- words on the screen, made to fit.
//
// text() wraps at spaces and line ends and steps down from the asked size of type to `least` until
// everything stands inside the rectangle. If even that is too large, the last line ends in an
// ellipsis and the record says `cut` (tests fail on it). Ink comes from the surface underneath.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ui/touch/touch.h"

namespace ui {

enum class Size { Small, Body, Large, Huge, Clock };
enum class Align { Left, Center, Right };
enum class Place { Top, Middle, Bottom };

struct TextLook {
  Size size = Size::Body;
  Align align = Align::Left;
  Place place = Place::Middle;
  bool tight = false;        // digits and capitals only: no room kept below the line
  bool quiet = false;        // the second ink of the surface
  Size least = Size::Small;  // never smaller than this
};

// Draws and records; returns the rectangle of the letters.
Rect text(Touch& t, const Rect& rect, std::string_view words, const TextLook& look = {});
// Shorthands: a screen's or section's title; a quiet remark.
Rect heading(Touch& t, const Rect& rect, std::string_view words);
Rect remark(Touch& t, const Rect& rect, std::string_view words, Size size = Size::Small);

// Height of one line, and width of the words on one line.
[[nodiscard]] float line_height(const Touch& t, Size size);
[[nodiscard]] float text_width(const Touch& t, std::string_view words, Size size);
// Height of a line of digits and capitals alone (TextLook::tight).
[[nodiscard]] float digit_height(const Touch& t, Size size);
// The largest size from `most` down to `least` in which every one of the words stands on one line
// of that width: neighbours look alike.
[[nodiscard]] Size common_size(const Touch& t, std::span<const std::string_view> words, float width,
                               Size most, Size least = Size::Small);
// Whether `words`, wrapped at their spaces, stand in the room in that size.
[[nodiscard]] bool stands_in(const Touch& t, std::string_view words, float width, float height,
                             Size size);
// Height that `words` take when wrapped to `width` in that size.
[[nodiscard]] float text_height(const Touch& t, std::string_view words, float width, Size size);

}  // namespace ui
