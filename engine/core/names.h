// engine/core/names.h -- the one list of names each enum has, for the journal and for tests.
//
// An enum that is stored gives `enum_names(E)`: its values' names in order, starting from 0. These
// names are part of the journal's format: they may be added to at the end, never changed.
#pragma once
#include <array>
#include <cassert>
#include <cstddef>
#include <optional>
#include <string_view>

#include "engine/core/units.h"

namespace engine {

template <class E>
concept Named = requires(E e) {
  enum_names(e);
};

template <class E>
requires requires(E e) { enum_names(e); }
[[nodiscard]] constexpr const char* name(E value) {
  const auto names = enum_names(value);
  assert(static_cast<std::size_t>(value) < names.size());
  return names[static_cast<std::size_t>(value)];
}

template <class E>
[[nodiscard]] constexpr std::optional<E> from_name(std::string_view text) {
  const auto names = enum_names(E{});
  for (std::size_t i = 0; i < names.size(); ++i)
    if (text == names[i]) return static_cast<E>(i);
  return std::nullopt;
}

constexpr std::array<const char*, 3> enum_names(Basis) {
  return {"dihydrate", "product", "anhydrous"};
}
constexpr std::array<const char*, 2> enum_names(MassUnit) { return {"gram", "ounce"}; }
constexpr std::array<const char*, 2> enum_names(TemperatureUnit) {
  return {"celsius", "fahrenheit"};
}

}  // namespace engine
