// engine/core/lists.h -- lists by key that are cheap to copy: the copies share each list until one
// of them changes it.
//
// For values that are kept as they once were (engine/farm/farm.h, Snapshot). Not for several
// threads that change copies of one another.
#pragma once
#include <cstddef>
#include <map>
#include <memory>
#include <span>
#include <vector>

#include "engine/core/own.h"

namespace engine {

template <class Key, class T>
class Lists {
 public:
  // Good until that list changes; empty where nothing was ever put.
  [[nodiscard]] std::span<const T> of(const Key& key) const {
    const auto at = lists_.find(key);
    return at == lists_.end() ? std::span<const T>{} : std::span<const T>(*at->second);
  }
  // To be changed in this copy alone.
  [[nodiscard]] std::vector<T>& change(const Key& key) { return own(lists_[key]); }

  [[nodiscard]] std::size_t keys() const { return lists_.size(); }
  // f(key, list) for each, by key.
  template <class F>
  void each(F f) const {
    for (const auto& [key, list] : lists_) f(key, *list);
  }

 private:
  std::map<Key, std::shared_ptr<std::vector<T>>> lists_;
};

}  // namespace engine
