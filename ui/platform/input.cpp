#include "ui/platform/input.h"

#include <SDL.h>
#include <imgui.h>

#include <algorithm>
#include <cfloat>
#include <utility>

namespace ui {
namespace {

// A finger that is down for longer than any held button asks for rests, or was lost (a panel that
// was unplugged sends no lift): the next one is heard. Own choice.
constexpr std::int64_t kRestsAfterMs = 1500;

constexpr std::int64_t kLongAgoMs = 60'000;

constexpr std::size_t kMostTyped = 4096;  // bytes; a scanner's line is far shorter

const char* control_text(SDL_Keycode key) {
  switch (key) {
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
      return "\n";
    case SDLK_TAB:
      return "\t";
    case SDLK_BACKSPACE:
      return "\b";
    case SDLK_ESCAPE:
      return "\x1b";
    default:
      return "";
  }
}

}  // namespace

void Input::set_size(int width_px, int height_px) {
  width_px_ = static_cast<float>(width_px);
  height_px_ = static_cast<float>(height_px);
}

bool Input::poll(const Hearing& hearing) {
  bool any = false;
  for (SDL_Event e; SDL_PollEvent(&e) != 0; any = true) {
    const bool touch = e.type == SDL_FINGERDOWN || e.type == SDL_FINGERUP;
    std::optional<std::int64_t> at;
    if (touch && hearing.exactly)
      at = hearing.exactly(e.tfinger.fingerId, e.type == SDL_FINGERDOWN);
    // Ids come round again: a time from long ago belongs to a touch that SDL never told.
    if (at && hearing.all.latest_ms - *at > kLongAgoMs) at.reset();
    feed(e, at ? EventTime{*at, *at} : hearing.all);
  }
  return any;
}

void Input::feed(const SDL_Event& e, EventTime at) {
  switch (e.type) {
    case SDL_FINGERDOWN:
    case SDL_FINGERMOTION:
    case SDL_FINGERUP:
      return feed_finger(e, at);
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
    case SDL_MOUSEMOTION:
      return feed_mouse(e, at);
    case SDL_TEXTINPUT:
    case SDL_KEYDOWN:
      return feed_key(e);
    default:
      return feed_window(e, at);
  }
}

void Input::feed_window(const SDL_Event& e, EventTime at) {
  if (e.type == SDL_QUIT) told_.quit = true;
  if (e.type == SDL_RENDER_TARGETS_RESET) told_.redraw = true;
  if (e.type == SDL_RENDER_DEVICE_RESET) told_.reset = true;
  if (e.type != SDL_WINDOWEVENT) return;
  switch (e.window.event) {
    case SDL_WINDOWEVENT_SIZE_CHANGED:
      told_.resized = true;
      break;
    case SDL_WINDOWEVENT_EXPOSED:
    case SDL_WINDOWEVENT_SHOWN:
    case SDL_WINDOWEVENT_RESTORED:
      told_.redraw = true;
      break;
    case SDL_WINDOWEVENT_FOCUS_LOST:
    case SDL_WINDOWEVENT_HIDDEN:
    case SDL_WINDOWEVENT_MINIMIZED:
      cancel(at);
      break;
    default:
      break;
  }
}

void Input::feed_key(const SDL_Event& e) {
  type(e.type == SDL_TEXTINPUT ? e.text.text : control_text(e.key.keysym.sym));
}

void Input::type(const char* text) {
  if (told_.typed.size() + SDL_strlen(text) <= kMostTyped) told_.typed += text;
}

void Input::feed_finger(const SDL_Event& e, EventTime at) {
  // The window id is not looked at: on KMSDRM fingers belong to no window.
  const SDL_TouchFingerEvent& f = e.tfinger;
  const auto kind = e.type == SDL_FINGERDOWN ? Touch::Kind::Press
                    : e.type == SDL_FINGERUP ? Touch::Kind::Release
                                             : Touch::Kind::Move;
  push({false, false, f.fingerId}, {kind, f.x * width_px_, f.y * height_px_, at});
}

void Input::feed_mouse(const SDL_Event& e, EventTime at) {
  const Pointer who{false, true, 0};
  if (e.type == SDL_MOUSEMOTION) {
    if (e.motion.which == SDL_TOUCH_MOUSEID) return;
    return push(who, {Touch::Kind::Move, static_cast<float>(e.motion.x),
                      static_cast<float>(e.motion.y), at});
  }
  if (e.button.which == SDL_TOUCH_MOUSEID || e.button.button != SDL_BUTTON_LEFT) return;
  const auto kind = e.type == SDL_MOUSEBUTTONDOWN ? Touch::Kind::Press : Touch::Kind::Release;
  push(who, {kind, static_cast<float>(e.button.x), static_cast<float>(e.button.y), at});
}

void Input::press(float x, float y, std::int64_t at_ms) {
  push({true, false, 0}, {Touch::Kind::Press, x, y, {at_ms, at_ms}});
}
void Input::move(float x, float y) { push({true, false, 0}, {Touch::Kind::Move, x, y, {}}); }
void Input::release(float x, float y, std::int64_t at_ms) {
  push({true, false, 0}, {Touch::Kind::Release, x, y, {at_ms, at_ms}});
}

// A press takes the pointer if it is free or rests; all else counts only from the one who holds it.
void Input::push(const Pointer& who, const Touch& touch) {
  if (touch.kind == Touch::Kind::Press) {
    if (holder_ && !gives_way(who, touch.at)) return;
    cancel(touch.at);
    holder_ = who;
    holds_since_ = touch.at;
    rests_ = false;
  } else if (holder_ != who) {
    return;
  }
  if (touch.kind == Touch::Kind::Release) holder_.reset();
  queue_.push_back(touch);
}

// Also to itself: a finger that comes down twice has lost its lift.
bool Input::gives_way(const Pointer& to, EventTime at) const {
  return holder_ == to || rests_ || at.latest_ms - holds_since_.latest_ms > kRestsAfterMs;
}

// The finger is taken back: the button goes up outside of everything, nothing is clicked.
void Input::cancel(EventTime at) {
  if (!holder_) return;
  holder_.reset();
  queue_.push_back({Touch::Kind::Cancel, -FLT_MAX, -FLT_MAX, at});
}

void Input::apply(ImGuiIO& io, const Touch& t) {
  io.MousePos = ImVec2(t.x, t.y);
  if (t.kind == Touch::Kind::Press) down_ = true;
  if (t.kind == Touch::Kind::Release || t.kind == Touch::Kind::Cancel) down_ = false;
  io.MouseDown[0] = down_;
  lifted_ = t.kind == Touch::Kind::Release || t.kind == Touch::Kind::Cancel;
}

int Input::run(ImGuiIO& io, double since_last, const BuildFrame& build) {
  constexpr float kLeast = 0.001f, kMost = 0.1f;
  io.DisplaySize = ImVec2(width_px_, height_px_);
  io.DeltaTime = std::clamp(static_cast<float>(since_last), kLeast, kMost);
  int built = 0;
  const auto frame = [&](const std::optional<EventTime>& at) {
    build(at);
    io.DeltaTime = kLeast;  // the time was given to the first frame
    ++built;
  };
  while (!queue_.empty()) {
    const Touch t = queue_.front();
    queue_.pop_front();
    apply(io, t);
    if (t.kind != Touch::Kind::Move) frame(t.at);
  }
  if (std::exchange(lifted_, false)) io.MousePos = ImVec2(-FLT_MAX, -FLT_MAX);
  frame(std::nullopt);
  return built;
}

WindowEvents Input::take_told() { return std::exchange(told_, WindowEvents{}); }

}  // namespace ui
