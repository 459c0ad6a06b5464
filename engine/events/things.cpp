#include "engine/events/things.h"

#include <type_traits>
#include <vector>

namespace engine {
namespace {

class EachNamed {
 public:
  explicit EachNamed(const std::function<void(const Thing&)>& f) : f_(f) {}

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
  const std::function<void(const Thing&)>& f_;
};

}  // namespace

void each_named(const Body& body, const std::function<void(const Thing&)>& f) {
  EachNamed each(f);
  std::visit([&](const auto& kind) { each.look(kind); }, body);
}

std::optional<Thing> brought_by(const Body& body) {
  return std::visit(
      []<class Kind>(const Kind& e) -> std::optional<Thing> {
        constexpr Brings kBrings = Kind::kFacts.brings;
        if constexpr (kBrings == Brings::Yard) return e.yard;
        if constexpr (kBrings == Brings::Colony) return e.colony;
        if constexpr (kBrings == Brings::Kit) return e.item;
        if constexpr (kBrings == Brings::Lot) return e.lot;
        if constexpr (kBrings == Brings::Walk) return e.walk;
        if constexpr (Kind::kFacts.says == Says::Correction) return brought_by(body_of(e.instead));
        return std::nullopt;
      },
      body);
}

const WalkId* walk_of(const Body& body) {
  return std::visit(
      []<class Kind>(const Kind& e) -> const WalkId* {
        if constexpr (Kind::kFacts.walk != InWalk::No)
          return &e.walk;
        else
          return nullptr;
      },
      body);
}

}  // namespace engine
