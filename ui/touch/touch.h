// ui/touch/touch.h -- what every widget is drawn on and asked through.
//
// One object for the life of the window; begin() once in each Dear ImGui frame, after NewFrame, and
// one frame for each press and each lift (see ui/platform). Between frames it keeps the finger
// (press.h) and nothing of the screen. What a frame shows is recorded: targets and texts with their
// true grounds, so that tests, play scripts and `targets` see what a person sees.
// Draws on ImGui's background list; opens no ImGui window. Lengths in px unless said.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ui/touch/fonts.h"
#include "ui/touch/press.h"
#include "ui/touch/rect.h"
#include "ui/touch/theme.h"
#include "ui/touch/words.h"

struct ImDrawList;

namespace ui {

// Least size of anything tapped, and of the space between: 20 x 15 mm, 3 mm (trade practice for
// gloves; Appl. Ergon. 2013, 44(2):297-302 finds no gain for bare hands beyond 20 mm).
inline constexpr float kTargetWide = 20, kTargetHigh = 15, kTargetGap = 3;  // mm
inline constexpr float kCorner = 1.5F;                                      // mm

struct Frame {
  float width = 0, height = 0;  // px
  float px_per_mm = 5.9F;
  const Theme* theme = nullptr;  // must live through the frame
  Fonts fonts;
  std::int64_t now_ms = 0;  // monotonic; the time of the press or lift the frame is built for
  std::optional<std::int64_t> earliest_ms{};  // of the press or lift, where it is not known
};

struct ShownText {
  std::string text;  // as asked; with an ellipsis if it was cut
  Rect rect;         // of the letters, not of the box
  Colour ink, ground;
  float font_px = 0;
  bool cut = false;  // did not fit even in the smallest size
};

struct Hit {
  bool tapped = false;   // true in one frame
  bool pressed = false;  // finger is on it
  float held = 0;        // 0 to 1, hold targets
};

class Touch {
 public:
  explicit Touch(Words words = {}) : words_(std::move(words)) {}

  void begin(const Frame& frame);
  // The frame built last is on the screen from then on. Who never says so shows every one.
  void shown(std::int64_t at_ms) { press_.shown(at_ms, targets_); }
  // The finger is down and does nothing where it is.
  [[nodiscard]] bool finger_rests() const { return press_.rests(); }

  [[nodiscard]] const Frame& frame() const { return frame_; }
  [[nodiscard]] const Theme& theme() const { return *frame_.theme; }
  [[nodiscard]] const Words& words() const { return words_; }
  void set_words(Words words) { words_ = std::move(words); }
  [[nodiscard]] Rect screen() const { return {0, 0, frame_.width, frame_.height}; }
  [[nodiscard]] bool portrait() const { return frame_.height > frame_.width; }
  [[nodiscard]] float mm(float length) const { return length * frame_.px_per_mm; }
  [[nodiscard]] float gap() const { return mm(kTargetGap); }
  [[nodiscard]] float least_w() const { return mm(kTargetWide); }
  [[nodiscard]] float least_h() const { return mm(kTargetHigh); }

  // For widgets. A target is announced before it is drawn; its id is the label unless given.
  Hit target(std::string_view label, const Rect& rect, bool enabled = true, bool hold = false,
             std::string_view id = {});
  // A filled rectangle, with an inner frame of `edge` px in the skin's edge colour. What has a
  // frame, or is `round`, has round corners.
  void fill(const Rect& rect, Surface surface, float edge = 0, bool round = false);
  // The surface that was filled last under the middle of `rect`.
  [[nodiscard]] Surface surface_at(const Rect& rect) const;
  void record(ShownText text);  // sets `ground` to the worst of the grounds under the text
  // What was shown up to here is hidden: its targets and texts are gone (dialogs).
  void cover();
  // The screen must be drawn again in `ms` (flashing, filling); the least of all asks counts.
  void wake_in(std::int64_t ms);
  [[nodiscard]] ImDrawList* draw() const { return draw_; }

  // Of this frame so far.
  [[nodiscard]] const std::vector<Target>& targets() const { return targets_; }
  [[nodiscard]] const std::vector<ShownText>& texts() const { return texts_; }
  // When to draw again if nothing happens; nothing: no need.
  [[nodiscard]] std::optional<std::int64_t> wake() const { return wake_; }

 private:
  struct Fill {
    Rect rect;
    Surface surface;
  };
  Frame frame_;
  Words words_;
  Press press_;
  ImDrawList* draw_ = nullptr;
  std::vector<Target> targets_;
  std::vector<ShownText> texts_;
  std::vector<Fill> fills_;
  std::optional<std::int64_t> wake_;
};

}  // namespace ui
