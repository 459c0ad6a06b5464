#include "ui/bundle_job.h"

#include <mutex>
#include <thread>

namespace ui {
namespace {

using Seen = BundleSeen;

// Writing and reading back take about as long as each other.
float part_of(const storage::BagProgress& p) {
  const float half =
      p.total == 0 ? 0.5F : 0.5F * static_cast<float>(p.done) / static_cast<float>(p.total);
  switch (p.step) {
    case storage::BagStep::Writing:
      return half;
    case storage::BagStep::ReadingBack:
      return 0.5F + half;
    case storage::BagStep::Finishing:
      return 1;
  }
  return 0;
}

Seen let_go(const std::string& path, const std::string& before) {
  const auto released = storage::release(path);
  if (!released.ok()) return {Seen::State::Failed, before + released.status().message(), 1};
  const bool out = released.value() == storage::Released::Unmounted;
  return {Seen::State::Safe,
          before + (out ? "Safe to pull the stick." : "Everything is on the medium: safe to pull."),
          1};
}

}  // namespace

struct BundleJob::State {
  mutable std::mutex lock;
  Seen seen;
  std::thread thread;

  void set(Seen now) {
    const std::scoped_lock hold(lock);
    seen = std::move(now);
  }
};

BundleJob::BundleJob() : state_(std::make_unique<State>()) {}
BundleJob::~BundleJob() { wait(); }

void BundleJob::start(storage::BagRequest request) {
  if (running()) return;
  wait();
  state_->set({Seen::State::Writing, "Writing and checking the log. Do not pull the stick.", 0});
  state_->thread = std::thread([state = state_.get(), request = std::move(request)] {
    const auto progress = [state](const storage::BagProgress& p) {
      const std::scoped_lock hold(state->lock);
      state->seen.part = part_of(p);
    };
    const auto written = storage::write_bag(request, progress);
    if (!written.ok()) return state->set({Seen::State::Failed, written.status().message(), 0});
    const std::string say = written.value().say + " ";
    if (request.medium == storage::Medium::Folder) return state->set({Seen::State::Safe, say, 1});
    state->set(let_go(request.parent, say));
  });
}

void BundleJob::release(const std::string& path) {
  if (running()) return;
  wait();
  state_->set(let_go(path, {}));
}

void BundleJob::fail(std::string line) {
  if (running()) return;
  state_->set({Seen::State::Failed, std::move(line), 0});
}

bool BundleJob::running() const { return seen().state == Seen::State::Writing; }

BundleSeen BundleJob::seen() const {
  const std::scoped_lock hold(state_->lock);
  return state_->seen;
}

void BundleJob::wait() {
  if (state_->thread.joinable()) state_->thread.join();
}

}  // namespace ui
