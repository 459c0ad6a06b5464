// engine/core/own.h -- a shared value, to be changed by one of those who share it.
#pragma once
#include <memory>

namespace engine {

// What `shared` holds, first copied when somebody else holds it too; made when there is nothing.
// Not for several threads that share it.
template <class T>
[[nodiscard]] T& own(std::shared_ptr<T>& shared) {
  if (!shared)
    shared = std::make_shared<T>();
  else if (shared.use_count() > 1)
    shared = std::make_shared<T>(*shared);
  return *shared;
}

}  // namespace engine
