#include "ui/platform/waker.h"

#include <SDL.h>
#include <poll.h>
#include <sys/eventfd.h>

#include <algorithm>
#include <cstdint>
#include <mutex>
#include <thread>

#include "ui/platform/file_handle.h"
#include "ui/platform/input_nodes.h"

namespace ui {
namespace {

using std::chrono::milliseconds;

// A count in the kernel that poll(2) can wait for and that any thread may raise.
class Bell {
 public:
  Bell() : file_(::eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC)) {}

  [[nodiscard]] int fd() const { return file_.get(); }
  void ring() const {
    const std::uint64_t one = 1;
    [[maybe_unused]] const ssize_t sent = ::write(fd(), &one, sizeof one);  // full is rung as well
  }
  void hush() const {
    std::uint64_t count = 0;
    [[maybe_unused]] const ssize_t got = ::read(fd(), &count, sizeof count);
  }

 private:
  FileHandle file_;
};

void remove(std::vector<pollfd>& fds, int fd) {
  std::erase_if(fds, [fd](const pollfd& p) { return p.fd == fd; });
}

void add_ready(const std::vector<pollfd>& polled, std::vector<int>& ready) {
  for (const pollfd& p : polled)
    if (p.revents != 0) ready.push_back(p.fd);
}

}  // namespace

class Waker::Strategy {
 public:
  virtual ~Strategy() = default;
  virtual void watch(int fd, short events) = 0;
  virtual void unwatch(int fd) = 0;
  virtual WakeReason wait(milliseconds most) = 0;
  virtual void wake() = 0;
  virtual std::optional<std::int64_t> finger_time(std::int64_t, bool) { return std::nullopt; }
  [[nodiscard]] virtual int nodes() const { return 0; }
};

// One poll(2) over everything; no thread is needed, since the nodes keep what came in between.
class Waker::NodeStrategy : public Waker::Strategy {
 public:
  explicit NodeStrategy(std::string folder) : nodes_(std::move(folder)) {}

  void watch(int fd, short events) override { watched_.push_back({fd, events, 0}); }
  void unwatch(int fd) override { remove(watched_, fd); }
  void wake() override { bell_.ring(); }
  [[nodiscard]] int nodes() const override { return nodes_.count(); }

  // SDL may have read what we have not yet. What is read here rings the bell, because nobody wakes
  // up for it any more, and SDL may not have read the last of it.
  std::optional<std::int64_t> finger_time(std::int64_t finger, bool down) override {
    if (const auto known = nodes_.finger_time(finger, down)) return known;
    if (nodes_.read_waiting()) bell_.ring();
    return nodes_.finger_time(finger, down);
  }

  WakeReason wait(milliseconds most) override {
    std::vector<pollfd> fds{{bell_.fd(), POLLIN, 0}};
    nodes_.add_to(fds);
    const std::size_t ours = fds.size();
    fds.insert(fds.end(), watched_.begin(), watched_.end());
    WakeReason woken;
    woken.slept = ::poll(fds.data(), fds.size(), 0) == 0;
    if (woken.slept && ::poll(fds.data(), fds.size(), static_cast<int>(most.count())) <= 0)
      return woken;
    add_ready({fds.begin() + static_cast<std::ptrdiff_t>(ours), fds.end()}, woken.fds);
    const bool rung = fds.front().revents != 0;
    if (rung) bell_.hush();
    const bool touched = nodes_.take(fds);
    // The kernel fills one reader's copy after the other; SDL's may come a moment after ours.
    if (touched) std::this_thread::sleep_for(milliseconds(2));
    woken.input = rung || touched;
    return woken;
  }

 private:
  InputNodes nodes_;
  Bell bell_;
  std::vector<pollfd> watched_;
};

// SDL waits for the window; a thread waits for the watched files and pushes SDL an event. A file
// that was reported is left alone until the next wait(), so that the thread never spins.
class Waker::WindowStrategy : public Waker::Strategy {
 public:
  WindowStrategy() : event_(SDL_RegisterEvents(1)) {}
  ~WindowStrategy() override {
    {
      const std::lock_guard lock(mutex_);
      stop_ = true;
    }
    bell_.ring();
    if (thread_.joinable()) thread_.join();
  }

  void watch(int fd, short events) override {
    {
      const std::lock_guard lock(mutex_);
      armed_.push_back({fd, events, 0});
    }
    if (!thread_.joinable()) thread_ = std::thread([this] { run(); });
    bell_.ring();
  }

  void unwatch(int fd) override {
    const std::lock_guard lock(mutex_);
    for (auto* list : {&armed_, &reported_, &told_}) remove(*list, fd);
    bell_.ring();
  }

  void wake() override {
    SDL_Event e{};
    e.type = event_;
    SDL_PushEvent(&e);
  }

  WakeReason wait(milliseconds most) override {
    rearm();
    WakeReason woken;
    woken.slept = SDL_WaitEventTimeout(nullptr, 0) == 0;
    woken.input =
        !woken.slept || SDL_WaitEventTimeout(nullptr, static_cast<int>(most.count())) != 0;
    const std::lock_guard lock(mutex_);
    add_ready(reported_, woken.fds);
    told_.swap(reported_);
    return woken;
  }

 private:
  void rearm() {
    const std::lock_guard lock(mutex_);
    if (told_.empty()) return;
    for (const pollfd& p : told_) armed_.push_back({p.fd, p.events, 0});
    told_.clear();
    bell_.ring();
  }

  // Moves what is ready from armed to reported. False when the thread should end.
  bool report(const std::vector<pollfd>& polled) {
    const std::lock_guard lock(mutex_);
    bool any = false;
    for (const pollfd& p : polled) {
      if (p.revents == 0) continue;
      const auto at = std::ranges::find(armed_, p.fd, &pollfd::fd);
      if (at == armed_.end()) continue;
      armed_.erase(at);
      reported_.push_back(p);
      any = true;
    }
    if (any) wake();
    return !stop_;
  }

  void run() {
    do {
      polled_.assign(1, {bell_.fd(), POLLIN, 0});
      {
        const std::lock_guard lock(mutex_);
        polled_.insert(polled_.end(), armed_.begin(), armed_.end());
      }
      if (::poll(polled_.data(), polled_.size(), -1) <= 0) continue;
      if (polled_.front().revents != 0) bell_.hush();
    } while (report(polled_));
  }

  std::uint32_t event_;
  std::mutex mutex_;
  // Guarded by mutex_. A watched file is in one of them: waited for; ready, but wait() has not said
  // so yet; said by the last wait().
  std::vector<pollfd> armed_, reported_, told_;
  bool stop_ = false;           // guarded by mutex_
  std::vector<pollfd> polled_;  // the thread's own
  Bell bell_;
  std::thread thread_;
};

Waker::Source Waker::source_for(const std::string& video_driver) {
  return video_driver == "x11" || video_driver == "wayland" ? Source::Window : Source::InputNodes;
}

Waker::Waker(Source source, std::string node_folder) {
  if (source == Source::Window)
    strategy_ = std::make_unique<WindowStrategy>();
  else
    strategy_ = std::make_unique<NodeStrategy>(std::move(node_folder));
}

Waker::~Waker() = default;

void Waker::watch(int fd, short events) { strategy_->watch(fd, events); }
void Waker::unwatch(int fd) { strategy_->unwatch(fd); }
WakeReason Waker::wait(milliseconds most) { return strategy_->wait(most); }
void Waker::wake() { strategy_->wake(); }
std::optional<std::int64_t> Waker::finger_time(std::int64_t finger, bool down) {
  return strategy_->finger_time(finger, down);
}
int Waker::nodes() const { return strategy_->nodes(); }

}  // namespace ui
