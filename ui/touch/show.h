// ui/touch/show.h -- what is only looked at: panels, tags, countdowns, the alarm bar.
#pragma once
#include <chrono>
#include <string>
#include <string_view>

#include "ui/touch/marks.h"
#include "ui/touch/text.h"
#include "ui/touch/touch.h"

namespace ui {

// A filled box; returns the room inside it (2 mm less on each side).
Rect panel(Touch& t, const Rect& rect, Surface surface = Surface::Panel);

// A word in a frame, with a shape: a state or a reason. Returns the part of `rect` it took (left).
Rect tag(Touch& t, const Rect& rect, std::string_view word, Mark mark, Surface surface);
[[nodiscard]] float tag_width(const Touch& t, std::string_view word, Mark mark);

// Name and value in one line, value to the right: "Battery" ... "11 of about 30".
void fact(Touch& t, const Rect& rect, std::string_view name, std::string_view value);

// A bar filled to `part` (0 to 1).
void progress(Touch& t, const Rect& rect, float part, Surface surface);

// mm:ss, h:mm:ss from an hour on, "+0:12" once over (left < 0).
[[nodiscard]] std::string clock_text(std::chrono::seconds left);

enum class Run { Running, Due, Over };
struct Countdown {
  std::string_view label;       // "Vapor, colony B3"
  std::chrono::seconds left{};  // negative: over
  std::chrono::seconds total{};
  std::chrono::seconds grace{};  // so long after zero it is due, then over
};
[[nodiscard]] Run run_of(const Countdown& c);
// Label and state word, large digits, a bar. Flashes when over; asks to be woken while it does.
void countdown(Touch& t, const Rect& rect, const Countdown& c);

// Flashing bar for an alarm: the two halves swap on whole seconds of `now_ms` (0.5 Hz, far under
// the three flashes a second of WCAG 2.3.1). The words stay readable in both halves.
void flash_bar(Touch& t, const Rect& rect, std::string_view words);
// Which half of a flash it is now; asks to be woken for the next.
bool flash_half(Touch& t);

}  // namespace ui
