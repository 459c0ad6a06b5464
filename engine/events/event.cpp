#include "engine/events/event.h"

#include <type_traits>

namespace engine {
namespace {

template <std::size_t I = 0>
std::optional<Body> find_kind(std::string_view wanted) {
  if constexpr (I < std::variant_size_v<AnyKind>) {
    using Kind = std::variant_alternative_t<I, AnyKind>;
    if (wanted == Kind::kKind) return Body{Kind{}};
    return find_kind<I + 1>(wanted);
  } else {
    return std::nullopt;
  }
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

const char* kind(const Body& body) {
  return std::visit([](const auto& b) { return std::remove_cvref_t<decltype(b)>::kKind; }, body);
}

std::optional<Body> body_of_kind(std::string_view kind) { return find_kind(kind); }

Body body_of(const Replacement& instead) {
  return std::visit([](const auto& body) { return Body{body}; }, instead.body());
}

std::optional<Replacement> replacement_of(const Body& body) {
  return std::visit(
      []<class Kind>(const Kind& kind) -> std::optional<Replacement> {
        if constexpr (std::is_constructible_v<ReplacementBody, Kind>)
          return Replacement{ReplacementBody{kind}};
        else
          return std::nullopt;
      },
      body);
}

}  // namespace engine
