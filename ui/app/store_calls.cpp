#include "ui/app/store_calls.h"

#include <condition_variable>
#include <mutex>
#include <utility>

namespace ui {

using Work = std::function<void(storage::Store&)>;

struct StoreCalls::Box {
  std::mutex lock;
  std::condition_variable rung;
  const Work* wanted = nullptr;  // stands until it was done
  bool closed = false;
};

StoreCalls::StoreCalls() : box_(std::make_shared<Box>()) {}
StoreCalls::~StoreCalls() { close(); }

StoreCalls& StoreCalls::operator=(StoreCalls&& other) noexcept {
  close();
  box_ = std::move(other.box_);
  return *this;
}

void StoreCalls::close() {
  if (!box_) return;
  const std::scoped_lock hold(box_->lock);
  box_->closed = true;
  box_->rung.notify_all();
}

storage::OnStore StoreCalls::for_thread() const {
  return [box = box_](const Work& work) {
    std::unique_lock hold(box->lock);
    if (box->closed) return false;
    box->wanted = &work;
    box->rung.wait(hold, [&] { return box->closed || box->wanted == nullptr; });
    return std::exchange(box->wanted, nullptr) == nullptr;
  };
}

void StoreCalls::serve(storage::Store& store) {
  const Work* work = nullptr;
  {
    const std::scoped_lock hold(box_->lock);
    work = box_->wanted;
  }
  if (work == nullptr) return;
  (*work)(store);  // its thread waits, and only this one closes the box
  const std::scoped_lock hold(box_->lock);
  box_->wanted = nullptr;
  box_->rung.notify_all();
}

bool StoreCalls::waited_for() const {
  const std::scoped_lock hold(box_->lock);
  return box_->wanted != nullptr;
}

}  // namespace ui
