// ui/platform/waker.h -- sleeps until something happens, without polling.
//
// SDL_WaitEventTimeout blocks only on X11 and Wayland; on KMSDRM, dummy and offscreen it looks
// about a thousand times a second. There the Waker polls the kernel's input nodes itself: an own
// reader gets an own copy of every event, so SDL loses none. Other files (a mount table, a pipe)
// may be watched too.
//
// All but wake() belong to one thread; wake() may be called from any.
#pragma once
#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace ui {

struct WakeReason {
  bool input = false;    // there may be events: call Input::poll()
  std::vector<int> fds;  // those watched that are ready
  bool slept = false;    // nothing had happened yet when the wait began

  [[nodiscard]] bool timed_out() const { return !input && fds.empty(); }
};

class Waker {
 public:
  enum class Source {
    InputNodes,  // poll the kernel's input nodes
    Window,      // SDL waits on the connection to the window server
  };

  // What fits a driver, as Display::video_driver() names it.
  [[nodiscard]] static Source source_for(const std::string& video_driver);

  explicit Waker(Source source, std::string node_folder = "/dev/input");
  Waker(const Waker&) = delete;
  Waker& operator=(const Waker&) = delete;
  ~Waker();

  // Wakes up for `events` (as of poll(2)) on `fd`, which stays the caller's and must stay open
  // until unwatch(). What is readable must be read before the next wait(), or that returns at once.
  void watch(int fd, short events);
  void unwatch(int fd);

  // Returns at the first event, at a wake(), on a signal, or after `most`; at once when an event
  // came since the last wait().
  [[nodiscard]] WakeReason wait(std::chrono::milliseconds most);

  // Ends the wait under way, or the next one. Counts as input.
  void wake();

  // When that finger (SDL's id of it) came down or was lifted, in milliseconds since boot, by the
  // kernel; once. Nothing where the window server has the panel.
  [[nodiscard]] std::optional<std::int64_t> finger_time(std::int64_t finger, bool down);

  // How many input nodes are open; for tests and for the log.
  [[nodiscard]] int nodes() const;

 private:
  class Strategy;
  class NodeStrategy;
  class WindowStrategy;

  std::unique_ptr<Strategy> strategy_;
};

}  // namespace ui
