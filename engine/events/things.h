// engine/events/things.h -- what an entry names, and what it brings into the farm.
#pragma once
#include <optional>
#include <type_traits>
#include <variant>
#include <vector>

#include "engine/events/event.h"

namespace engine {

// Other entries can name it only while the entry that brings it counts. (Courses are left out: no
// fact falls for want of its course.)
using Thing = std::variant<YardId, ColonyId, KitId, LotId, WalkId>;

// f(thing) for each that the words name, whatever the field.
template <class F>
class EachNamed {
 public:
  explicit EachNamed(F f) : f_(std::move(f)) {}

  template <class Field>
  void operator()(const char*, const Field& field) {
    look(field);
  }
  void look(const Replacement& instead) {
    std::visit([this](const auto& body) { this->look(body); }, instead.body());
  }
  template <class T>
  void look(const std::optional<T>& maybe) {
    if (maybe) look(*maybe);
  }
  template <class T>
  void look(const std::vector<T>& list) {
    for (const T& item : list) look(item);
  }
  template <class T>
  void look(const T& value) {
    if constexpr (std::is_constructible_v<Thing, T> && !std::is_arithmetic_v<T>)
      f_(Thing{value});
    else if constexpr (requires { T::fields(value, *this); })
      T::fields(value, *this);
  }

 private:
  F f_;
};

template <class F>
void each_named(const Body& body, F f) {
  EachNamed<F> each(std::move(f));
  std::visit([&](const auto& kind) { each.look(kind); }, body);
}

// The thing that entries after this one can name because of it. A late entry brings its walk where
// nobody opened that; a correction brings what its words bring.
[[nodiscard]] std::optional<Thing> brought_by(const Body& body);

// The walk that the entry opens or belongs to; nullptr: none. It lives in the body.
[[nodiscard]] const WalkId* walk_of(const Body& body);

}  // namespace engine
