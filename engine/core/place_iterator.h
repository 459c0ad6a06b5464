// engine/core/place_iterator.h -- goes through a list by the places of its items, for lists whose
// items do not lie beside each other.
#pragma once
#include <compare>
#include <cstddef>
#include <iterator>

namespace engine {

// `List` has operator[](std::size_t), which returns const T&.
template <class List, class T>
class PlaceIterator {
 public:
  using iterator_category = std::random_access_iterator_tag;
  using value_type = T;
  using difference_type = std::ptrdiff_t;
  using pointer = const T*;
  using reference = const T&;

  PlaceIterator() = default;
  PlaceIterator(const List* list, std::size_t at) : list_(list), at_(at) {}
  reference operator*() const { return (*list_)[at_]; }
  pointer operator->() const { return &(*list_)[at_]; }
  reference operator[](difference_type n) const { return *(*this + n); }
  PlaceIterator& operator++() { return ++at_, *this; }
  PlaceIterator& operator--() { return --at_, *this; }
  PlaceIterator operator++(int) { return {list_, at_++}; }
  PlaceIterator operator--(int) { return {list_, at_--}; }
  PlaceIterator& operator+=(difference_type n) { return *this = *this + n; }
  PlaceIterator& operator-=(difference_type n) { return *this = *this - n; }
  friend PlaceIterator operator+(PlaceIterator i, difference_type n) {
    return {i.list_, static_cast<std::size_t>(static_cast<difference_type>(i.at_) + n)};
  }
  friend PlaceIterator operator+(difference_type n, PlaceIterator i) { return i + n; }
  friend PlaceIterator operator-(PlaceIterator i, difference_type n) { return i + -n; }
  friend difference_type operator-(PlaceIterator a, PlaceIterator b) {
    return static_cast<difference_type>(a.at_) - static_cast<difference_type>(b.at_);
  }
  friend auto operator<=>(PlaceIterator a, PlaceIterator b) { return a.at_ <=> b.at_; }
  friend bool operator==(PlaceIterator a, PlaceIterator b) { return a.at_ == b.at_; }

 private:
  const List* list_ = nullptr;
  std::size_t at_ = 0;
};

}  // namespace engine
