#include "engine/events/things.h"

namespace engine {

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
