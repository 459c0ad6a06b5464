// ui/screens/answers/memo.h -- the answers to one question, each worked out when it is first asked.
#pragma once
#include <map>
#include <optional>
#include <utility>

namespace ui {

// Asking changes nothing that anybody could see, so it is const.
template <class Key, class Value>
class Memo {
 public:
  // The value of the key; `make` gives it where it was not asked before. Good until clear().
  template <class Make>
  const Value& of(const Key& key, Make&& make) const {
    auto at = known_.find(key);
    if (at == known_.end()) at = known_.emplace(key, make()).first;
    return at->second;
  }
  // The same where there may be no answer; nullptr: there is none.
  template <class Make>
  auto if_any(const Key& key, Make&& make) const {
    const Value& value = of(key, make);
    return value ? &*value : nullptr;
  }
  void clear() { known_.clear(); }

 private:
  mutable std::map<Key, Value> known_;
};

// The same for the question that was asked last alone.
template <class Key, class Value>
class Latest {
 public:
  // Good until another question.
  template <class Make>
  const Value& of(const Key& key, Make&& make) const {
    if (!known_ || !(known_->first == key)) known_.emplace(key, make());
    return known_->second;
  }

 private:
  mutable std::optional<std::pair<Key, Value>> known_;
};

}  // namespace ui
