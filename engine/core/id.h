// engine/core/id.h -- names of things that never collide between tablets.
//
// An Id<Tag> is a UUID (RFC 9562); the tag keeps a yard's id from being used as a colony's. New ids
// are version 7: the first 48 bits are Unix milliseconds, so ids sort by when they were made.
// Randomness and time are arguments; the engine has neither of its own.
#pragma once
#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace engine {

using UuidBytes = std::array<std::uint8_t, 16>;

// The version-7 UUID of this millisecond and these 74 random bits (other bits are ignored).
[[nodiscard]] UuidBytes uuid_v7(std::int64_t unix_ms, std::uint64_t random_a,
                                std::uint64_t random_b);

// Lower-case 8-4-4-4-12 text, and back; nullopt when `text` is anything else.
[[nodiscard]] std::string uuid_text(const UuidBytes& bytes);
[[nodiscard]] std::optional<UuidBytes> uuid_from_text(std::string_view text);

template <class Tag>
struct Id {
  UuidBytes bytes{};

  friend auto operator<=>(const Id&, const Id&) = default;
  // The all-zero id names nothing.
  [[nodiscard]] bool empty() const { return bytes == UuidBytes{}; }
};

template <class Tag>
[[nodiscard]] std::string text(const Id<Tag>& id) {
  return uuid_text(id.bytes);
}

using DeviceId = Id<struct DeviceTag>;
using YardId = Id<struct YardTag>;
using ColonyId = Id<struct ColonyTag>;
using KitId = Id<struct KitTag>;  // vaporizer, cloth, battery, respirator
using LotId = Id<struct LotTag>;  // a lot of acid on the shelf
using WalkId = Id<struct WalkTag>;
using CourseId = Id<struct CourseTag>;
using CountId = Id<struct CountTag>;  // of a count that a sheet holds

}  // namespace engine
