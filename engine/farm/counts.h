// engine/farm/counts.h -- all counts, in the order of the log, and where those of a colony are.
// Cheap to copy, so that a farm can be kept as it was (engine/farm/farm.h, Snapshot).
#pragma once
#include <algorithm>
#include <cassert>
#include <cstdint>
#include <utility>
#include <vector>

#include "engine/core/lists.h"
#include "engine/core/paged.h"
#include "engine/events/event.h"

namespace engine {

struct Count {
  EntryRef entry;
  CountTaken taken;
};

class Counts {
 public:
  [[nodiscard]] std::size_t size() const { return all_.size(); }
  [[nodiscard]] bool empty() const { return all_.empty(); }
  [[nodiscard]] const Count& operator[](std::size_t i) const { return all_[i]; }
  [[nodiscard]] const Count& back() const { return all_.back(); }
  [[nodiscard]] auto begin() const { return all_.begin(); }
  [[nodiscard]] auto end() const { return all_.end(); }

  // f(count) for each of the colony's, in the order of the log.
  template <class F>
  void each_of(ColonyId colony, F f) const {
    for (const std::uint32_t place : places_.of(colony)) f(all_[place]);
  }
  [[nodiscard]] bool any_of(ColonyId colony) const { return !places_.of(colony).empty(); }
  // The colony's count of that id; nullptr: it has none. Good until the counts change.
  [[nodiscard]] const Count* find(ColonyId colony, CountId id) const {
    for (const std::uint32_t place : places_.of(colony))
      if (all_[place].taken.count == id) return &all_[place];
    return nullptr;
  }

  void push_back(Count count) {
    places_.change(count.taken.colony).push_back(static_cast<std::uint32_t>(all_.size()));
    all_.push_back(std::move(count));
  }
  // Takes out the count of that entry, where there is one; the later ones move up.
  void erase(const EntryRef& entry) {
    const auto at = std::find_if(begin(), end(), [&](const Count& c) { return c.entry == entry; });
    if (at == end()) return;
    const std::vector<Count> later(at + 1, end());
    for (std::size_t n = later.size() + 1; n > 0; --n) pop_back();
    for (const Count& count : later) push_back(count);
  }

 private:
  void pop_back() {
    std::vector<std::uint32_t>& places = places_.change(all_.back().taken.colony);
    assert(!places.empty() && places.back() + 1 == all_.size());
    places.pop_back();
    all_.pop_back();
  }

  Paged<Count> all_;
  Lists<ColonyId, std::uint32_t> places_;
};

}  // namespace engine
