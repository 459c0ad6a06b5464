// ui/platform/input.h -- fingers, mouse and keys from SDL to Dear ImGui 1.86.
//
// ImGui 1.86 has no event queue: a press and a release between two frames would be lost. So touches
// are queued here, and run() gives ImGui one frame for every press and every release. The position
// stays for the frame of the release, which makes the click, and goes one frame later, so that no
// button stays lit under a finger that has left.
//
// One finger counts at a time: the first, until it lifts or rests. A finger rests when it has been
// down for longer than any button needs, or lies where nothing is (rests()): a thumb on the rim.
// Then the next finger takes over; the resting one is taken back and its lift means nothing.
//
// Each touch keeps its own time. SDL's time stamps do not serve: they say when SDL was asked, and
// while an entry is made durable nobody asks. So the owner says when it listened (Hearing), and
// may know better from the kernel. Play scripts use press(), move() and release(), which go through
// the same queue. One thread only.
#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <optional>
#include <string>

union SDL_Event;
struct ImGuiIO;

namespace ui {

// What the window said since the last take_told(), beside touches.
struct WindowEvents {
  bool quit = false;
  bool redraw = false;   // uncovered, shown again, or the driver lost the picture
  bool resized = false;  // call Display::resized()
  bool reset = false;    // call Display::restore()
  // UTF-8 from a keyboard or a scanner that acts as one. Return is \n, Tab \t, Backspace \b,
  // Escape \x1b.
  std::string typed;

  [[nodiscard]] bool nothing() const {
    return !quit && !redraw && !resized && !reset && typed.empty();
  }
};

// When something happened, in milliseconds since boot: between the two, equal where it is known.
struct EventTime {
  std::int64_t earliest_ms = 0, latest_ms = 0;
};

// What the owner knows of the time of the events that wait.
struct Hearing {
  EventTime all;  // from when nobody listened until now
  // The kernel's own time of a finger's press or lift, where it is known.
  std::function<std::optional<std::int64_t>(std::int64_t finger, bool down)> exactly{};
};

class Input {
 public:
  // Builds one ImGui frame, NewFrame() to Render(); it need not be drawn. The frame of a press or a
  // lift is told its time; the others none.
  using BuildFrame = std::function<void(const std::optional<EventTime>&)>;

  // Fingers come as fractions of the screen; this is its size in pixels.
  void set_size(int width_px, int height_px);

  // Takes all events that SDL has waiting. True when there was any.
  bool poll(const Hearing& hearing = {});

  // Takes one event that happened then.
  void feed(const SDL_Event& event, EventTime at = {});

  // A synthetic finger, in pixels.
  void press(float x, float y, std::int64_t at_ms = 0);
  void move(float x, float y);
  void release(float x, float y, std::int64_t at_ms = 0);

  // Whether the finger that is down does nothing there: then it gives way to the next one.
  void set_rests(bool rests) { rests_ = rests; }

  // Builds a frame for each press and release in the queue and one more. `since_last` is the time
  // in seconds since the last run(), for ImGui's DeltaTime; it is cut to between 1 ms and 100 ms,
  // so that an idle second does not look like a long hold. Returns how many frames were built.
  int run(ImGuiIO& io, double since_last, const BuildFrame& build);

  // True while a finger is down or touches are waiting: the owner should not idle for long.
  [[nodiscard]] bool busy() const { return down_ || !queue_.empty() || lifted_; }

  [[nodiscard]] WindowEvents take_told();

 private:
  struct Touch {
    enum class Kind { Press, Move, Release, Cancel } kind;
    float x, y;
    EventTime at;
  };
  // Who holds the pointer: a finger's id, or one of the two below.
  using Holder = std::int64_t;
  struct Pointer {
    bool script = false, mouse = false;
    Holder finger = 0;
    bool operator==(const Pointer&) const = default;
  };

  void feed_window(const SDL_Event& event, EventTime at);
  void feed_key(const SDL_Event& event);
  void feed_finger(const SDL_Event& event, EventTime at);
  void feed_mouse(const SDL_Event& event, EventTime at);
  void push(const Pointer& who, const Touch& touch);
  [[nodiscard]] bool gives_way(const Pointer& to, EventTime at) const;
  void cancel(EventTime at);
  void type(const char* text);
  void apply(ImGuiIO& io, const Touch& touch);

  std::deque<Touch> queue_;
  std::optional<Pointer> holder_;
  EventTime holds_since_;
  bool rests_ = false;   // the holder does nothing where it is
  bool down_ = false;    // as ImGui knows it
  bool lifted_ = false;  // the last frame was that of a release
  float width_px_ = 1, height_px_ = 1;
  WindowEvents told_;
};

}  // namespace ui
