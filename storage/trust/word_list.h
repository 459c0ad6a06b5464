// storage/trust/word_list.h -- the 1,024 words that people read to each other when they pair
// tablets.
#pragma once
#include <array>
#include <cstddef>
#include <string_view>

namespace storage {

inline constexpr std::size_t kPairingWords = 1024;  // ten bits each

// In alphabetical order; no two share their first four letters.
[[nodiscard]] const std::array<std::string_view, kPairingWords>& pairing_word_list();

}  // namespace storage
