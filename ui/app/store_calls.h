// ui/app/store_calls.h -- work on the store that a thread beside the screens asks for, done by the
// screens between two frames.
//
// The thread waits meanwhile, so that the two never touch the store, or what the work hands over,
// at the same time. When the screens go away, who waits is told that nothing will be done.
#pragma once
#include <memory>

#include "storage/bundle/exchange.h"

namespace ui {

class StoreCalls {
 public:
  StoreCalls();
  ~StoreCalls();
  StoreCalls(StoreCalls&&) noexcept = default;
  StoreCalls& operator=(StoreCalls&& other) noexcept;

  // For the other thread; it may outlive this.
  [[nodiscard]] storage::OnStore for_thread() const;
  // Does what waits, if anything does.
  void serve(storage::Store& store);
  // Somebody waits for serve().
  [[nodiscard]] bool waited_for() const;

 private:
  struct Box;
  void close();

  std::shared_ptr<Box> box_;
};

}  // namespace ui
