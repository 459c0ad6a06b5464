// engine/farm/walks.h -- all walks, by id, and those of each yard. Reads like a map; copies share
// the walks themselves, so that a farm can be kept as it was (engine/farm/farm.h, Snapshot).
#pragma once
#include <algorithm>
#include <cassert>
#include <map>
#include <memory>
#include <span>
#include <utility>

#include "engine/core/lists.h"
#include "engine/core/own.h"
#include "engine/walk/walk.h"

namespace engine {

class Walks {
  using Map = std::map<WalkId, std::shared_ptr<Walk>>;

 public:
  struct Item {
    const WalkId& first;
    const Walk& second;
  };
  class Iterator {
   public:
    struct Arrow {
      Item item;
      const Item* operator->() const { return &item; }
    };
    using iterator_category = std::input_iterator_tag;
    using value_type = Item;
    using difference_type = std::ptrdiff_t;
    using pointer = Arrow;
    using reference = Item;

    Iterator() = default;
    explicit Iterator(Map::const_iterator at) : at_(at) {}
    Item operator*() const { return {at_->first, *at_->second}; }
    Arrow operator->() const { return {**this}; }
    Iterator& operator++() { return ++at_, *this; }
    Iterator operator++(int) { return Iterator(at_++); }
    bool operator==(const Iterator&) const = default;

   private:
    Map::const_iterator at_;
  };

  [[nodiscard]] Iterator begin() const { return Iterator(map_.begin()); }
  [[nodiscard]] Iterator end() const { return Iterator(map_.end()); }
  [[nodiscard]] Iterator find(const WalkId& id) const { return Iterator(map_.find(id)); }
  [[nodiscard]] std::size_t size() const { return map_.size(); }
  [[nodiscard]] bool empty() const { return map_.empty(); }
  // Required to be there.
  [[nodiscard]] const Walk& at(const WalkId& id) const { return *map_.at(id); }

  struct Opened {
    Utc at;
    WalkId walk;
    friend auto operator<=>(const Opened&, const Opened&) = default;
  };
  // By when they were opened; those of one moment by id.
  [[nodiscard]] std::span<const Opened> of_yard(const YardId& yard) const {
    return yards_.of(yard);
  }

  // To be changed in this copy alone, but for its yard and its opening; required to be there.
  [[nodiscard]] Walk& change(const WalkId& id) { return own(map_.at(id)); }
  // Required not to be there.
  void put(Walk walk) {
    assert(!map_.contains(walk.id));
    std::vector<Opened>& yard = yards_.change(walk.yard);
    const Opened opened{walk.opened.at, walk.id};
    assert(std::is_sorted(yard.begin(), yard.end()));
    yard.insert(std::upper_bound(yard.begin(), yard.end(), opened), opened);
    const WalkId id = walk.id;
    map_[id] = std::make_shared<Walk>(std::move(walk));
  }

 private:
  Map map_;
  Lists<YardId, Opened> yards_;
};

}  // namespace engine
