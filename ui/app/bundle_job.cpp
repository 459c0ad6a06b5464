#include "ui/app/bundle_job.h"

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <utility>

namespace ui {
namespace {

using Seen = BundleSeen;

// A medium that made no step for so long is not waited for when the program ends.
constexpr std::chrono::seconds kNoAnswer{5};

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

std::string sentence(std::string line) {
  if (line.empty()) return line;
  if (line[0] >= 'a' && line[0] <= 'z') line[0] = static_cast<char>(line[0] - 'a' + 'A');
  if (line.back() != '.') line += '.';
  return line;
}

// "the stick is full (/media/x: No space left on device): free ..." without what is in brackets.
std::string without_brackets(std::string line) {
  for (auto open = line.find(" ("); open != std::string::npos; open = line.find(" (")) {
    const auto close = line.find(')', open);
    line.erase(open, close == std::string::npos ? close : close + 1 - open);
  }
  return line;
}

// After the bundle is whole, or when only asked to.
Seen let_go(const std::string& path, const std::string& before) {
  const auto released = storage::release(path);
  if (released.ok()) return {Seen::State::Safe, before, 1};
  const bool busy = released.status().code() == engine::Code::Busy;
  return {Seen::State::Held,
          busy ? "Another program still uses it: close what shows its files, then tap Make it safe "
                 "to pull."
               : plain_failure(released.status(), storage::Medium::Stick),
          1};
}

Seen write_and_let_go(const storage::BagRequest& request, const storage::OnProgress& progress) {
  const auto written = storage::write_bag(request, progress);
  if (!written.ok())
    return {Seen::State::Failed, plain_failure(written.status(), request.medium), 0};
  const std::string say = sentence(written.value().say);
  if (request.medium == storage::Medium::Folder) return {Seen::State::Written, say, 1};
  return let_go(request.parent, say);
}

}  // namespace

struct BundleJob::State {
  mutable std::mutex lock;
  std::condition_variable rung;
  Seen seen;
  bool working = false;
  std::uint64_t steps = 0;  // of the work: it goes on while these do

  void set(Seen now) {
    const std::scoped_lock hold(lock);
    seen = std::move(now);
  }
  void finish(Seen end) {
    const std::scoped_lock hold(lock);
    seen = std::move(end);
    working = false;
    rung.notify_all();
  }
};

std::string plain_failure(const engine::Status& status, storage::Medium medium) {
  const bool stick = medium == storage::Medium::Stick;
  switch (status.code()) {
    case engine::Code::Full:  // with the numbers
      return sentence(without_brackets(status.message()));
    case engine::Code::NotFound:
      return stick ? "The stick is out. Put it back and write again."
                   : "This folder is not there. Choose another place.";
    case engine::Code::ReadOnly:
      return stick ? "The stick may not be written. Slide its lock switch or take another stick."
                   : "This folder may not be written. Choose another place.";
    case engine::Code::Gone:
      return stick ? "The stick was pulled or does not answer. Put it back and write again."
                   : "This folder takes no files. Choose another place.";
    case engine::Code::Damaged:
      return stick ? "The stick does not keep what is written to it. Take another stick."
                   : "This folder does not keep what is written to it. Choose another place.";
    default:
      return stick ? "The stick took no files. Write again, or take another stick."
                   : "This folder takes no files. Choose another place.";
  }
}

BundleJob::BundleJob() : state_(std::make_shared<State>()) {}

BundleJob::~BundleJob() {
  std::unique_lock hold(state_->lock);
  while (state_->working) {
    const std::uint64_t before = state_->steps;
    if (state_->rung.wait_for(hold, kNoAnswer) == std::cv_status::timeout &&
        state_->steps == before)
      return;  // the medium does not answer, and may never
  }
}

// The thread owns what it works on, so that it can be left behind with a medium that stalls.
void BundleJob::begin(Seen seen, std::function<Seen(const storage::OnProgress&)> work) {
  {
    const std::scoped_lock hold(state_->lock);
    state_->seen = std::move(seen);
    state_->working = true;
  }
  std::thread([state = state_, work = std::move(work)] {
    state->finish(work([state](const storage::BagProgress& p) {
      const std::scoped_lock hold(state->lock);
      state->seen.part = part_of(p);
      ++state->steps;
    }));
  }).detach();
}

void BundleJob::start(storage::BagRequest request, std::size_t entries) {
  if (running()) return;
  Seen seen{Seen::State::Writing, "The log is checked too.", 0, request.parent, entries};
  begin(std::move(seen), [request = std::move(request), entries](const auto& progress) {
    Seen end = write_and_let_go(request, progress);
    end.folder = request.parent;
    end.entries = entries;
    return end;
  });
}

void BundleJob::release(const std::string& path) {
  if (running()) return;
  begin({Seen::State::Writing, "All of it is put on the stick.", 1, path}, [path](const auto&) {
    Seen end = let_go(path, {});
    end.folder = path;
    return end;
  });
}

void BundleJob::fail(std::string line, std::string folder) {
  if (running()) return;
  state_->set({Seen::State::Failed, std::move(line), 0, std::move(folder)});
}

bool BundleJob::running() const {
  const std::scoped_lock hold(state_->lock);
  return state_->working;
}

BundleSeen BundleJob::seen() const {
  const std::scoped_lock hold(state_->lock);
  return state_->seen;
}

void BundleJob::wait() {
  std::unique_lock hold(state_->lock);
  state_->rung.wait(hold, [this] { return !state_->working; });
}

}  // namespace ui
