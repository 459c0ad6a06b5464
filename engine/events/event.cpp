// The table of all kinds: what they are called, their facts, how one is made.
#include "engine/events/event.h"

#include <array>
#include <cassert>
#include <type_traits>
#include <vector>

namespace engine {
namespace {

template <class Kind>
constexpr bool facts_are_borne_out() {
  constexpr const KindFacts& facts = Kind::kFacts;
  constexpr bool of_walk = requires(const Kind& e) { e.walk; };
  constexpr bool of_colony = requires(const Kind& e) { e.colony; };
  constexpr bool of_colonies = requires(const Kind& e) { std::vector<ColonyId>(e.colonies); };
  constexpr bool lists_colonies = facts.colonies == ColoniesIn::Colonies;
  constexpr bool begins_walk = facts.walk == InWalk::Opens || facts.walk == InWalk::Late;
  static_assert(of_walk == (facts.walk != InWalk::No), "what is it to the walk that it names?");
  static_assert(!of_walk || facts.is_step() != (facts.brings == Brings::Walk));
  static_assert(begins_walk == (facts.brings == Brings::Walk), "only these bring their walk");
  static_assert(!of_colony || facts.colonies != ColoniesIn::Nothing, "it names a colony");
  static_assert(of_colonies == lists_colonies, "it lists colonies");
  static_assert(facts.correctable == std::is_constructible_v<ReplacementBody, Kind>,
                "what can be corrected stands in ReplacementBody");
  static_assert(facts.leaves != Leaves::Row || facts.brings == Brings::Nothing,
                "nothing stands on a row");
  static_assert(facts.is_about_another() == (facts.moves == Moves::All));
  return true;
}

struct KindRow {
  const char* name;
  const KindFacts* facts;
  Body (*make)();
};

template <class Kind>
Body empty_body() {
  return Kind{};
}

template <class... Kinds>
constexpr auto rows_of(const std::variant<Kinds...>*) {
  static_assert((facts_are_borne_out<Kinds>() && ...));
  return std::array{KindRow{Kinds::kKind, &Kinds::kFacts, &empty_body<Kinds>}...};
}

// By their places in AnyKind.
constexpr auto kRows = rows_of(static_cast<const AnyKind*>(nullptr));
static_assert(kRows.size() <= 256, "a packed page has one byte for the place of a kind (log.h)");

const KindRow& row_of(const Body& body) {
  assert(!body.valueless_by_exception());
  return kRows[body.index()];
}

}  // namespace

Replacement::Replacement() : Replacement(ReplacementBody{}) {}
Replacement::Replacement(ReplacementBody body)
    : boxed_(std::make_shared<const ReplacementBody>(std::move(body))) {}

Body::Body() = default;
Body::Body(const Body& other) = default;
Body::Body(Body&& other) noexcept = default;
Body& Body::operator=(const Body& other) = default;
Body& Body::operator=(Body&& other) noexcept = default;
Body::~Body() = default;

const char* kind(const Body& body) { return row_of(body).name; }

const KindFacts& facts_of(const Body& body) { return *row_of(body).facts; }

const KindFacts& facts_of_kind(std::size_t place) {
  assert(place < kRows.size());
  return *kRows[place].facts;
}

std::optional<Body> body_of_kind(std::string_view kind) {
  for (const KindRow& row : kRows)
    if (kind == row.name) return row.make();
  return std::nullopt;
}

Body body_of(const Replacement& instead) {
  return std::visit([](const auto& body) { return Body{body}; }, instead.body());
}

std::optional<Replacement> replacement_of(const Body& body) {
  return std::visit(
      []<class Kind>(const Kind& kind) -> std::optional<Replacement> {
        if constexpr (Kind::kFacts.correctable)
          return Replacement{ReplacementBody{kind}};
        else
          return std::nullopt;
      },
      body);
}

}  // namespace engine
