// ui/app/beside.h -- work that may stall (a stick, a network folder), done beside the screens.
//
// One thread a work, never joined: a file system that does not answer cannot be made to, and the
// screens must go on and close all the same. So what runs beside owns all that it touches, knows
// neither store nor farm, and leaves its result where the screens fetch it between two frames.
// A Beside that goes away leaves its work behind; its result is then nobody's.
#pragma once
#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>

namespace ui {

template <class Result>
class Beside {
 public:
  // Not while one runs. A result that was not fetched is lost.
  void start(std::function<Result()> work) {
    auto now = std::make_shared<State>();
    std::thread([now, work = std::move(work)]() mutable {
      std::optional<Result> made(work());
      work = nullptr;  // what it owned goes before anybody hears that it is done
      const std::scoped_lock hold(now->lock);
      now->result = std::move(made);
      now->done = true;
      now->rung.notify_all();
    }).detach();
    state_ = std::move(now);
  }

  // Working, or its result waits.
  [[nodiscard]] bool busy() const { return state_ != nullptr; }

  // The result, once; nothing while the work goes on.
  [[nodiscard]] std::optional<Result> take() {
    if (!state_) return std::nullopt;
    std::optional<Result> made;
    {
      const std::scoped_lock hold(state_->lock);
      if (!state_->done) return std::nullopt;
      made = std::move(state_->result);
    }
    state_.reset();
    return made;
  }

  // Until it is done, at most so long; false: it still works.
  bool wait(std::chrono::milliseconds most) const {
    if (!state_) return true;
    std::unique_lock hold(state_->lock);
    return state_->rung.wait_for(hold, most, [this] { return state_->done; });
  }

 private:
  struct State {
    std::mutex lock;
    std::condition_variable rung;
    bool done = false;
    std::optional<Result> result;
  };
  std::shared_ptr<State> state_;
};

}  // namespace ui
