// engine/core/paged.h -- a long list that is cheap to copy: pages are shared between the copies
// until one of them changes.
//
// For values that are kept as they once were (engine/farm/farm.h, Snapshot). Items stay where they
// are until the list changes. Not for several threads that change copies of one list.
#pragma once
#include <cassert>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

#include "engine/core/own.h"
#include "engine/core/place_iterator.h"

namespace engine {

template <class T>
class Paged {
 public:
  using Iterator = PlaceIterator<Paged, T>;

  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] bool empty() const { return size_ == 0; }
  [[nodiscard]] const T& operator[](std::size_t i) const {
    assert(i < size_);
    return (*pages_[i / kPage])[i % kPage];
  }
  [[nodiscard]] const T& back() const { return (*this)[size_ - 1]; }
  [[nodiscard]] Iterator begin() const { return {this, 0}; }
  [[nodiscard]] Iterator end() const { return {this, size_}; }

  void push_back(T item) {
    if (size_ % kPage == 0) pages_.push_back(std::make_shared<std::vector<T>>());
    own(pages_.back()).push_back(std::move(item));
    ++size_;
  }

  void pop_back() {
    assert(size_ > 0);
    own(pages_.back()).pop_back();
    if (--size_ % kPage == 0) pages_.pop_back();
  }

 private:
  static constexpr std::size_t kPage = 256;
  using Page = std::shared_ptr<std::vector<T>>;

  std::vector<Page> pages_;
  std::size_t size_ = 0;
};

}  // namespace engine
