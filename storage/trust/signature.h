// storage/trust/signature.h -- a tablet's word that it wrote an entry, and so, by the chain, all of
// its entries before.
//
// What is signed is the text
//   duskwalk entry 1 / DEVICE / NUMBER / HASH      a line feed in the place of each " / " and at
//                                                  the end
// A file of them ("signatures.txt" in a bundle) is
//   duskwalk signatures 1
//   signed DEVICE NUMBER HASH KEY SIGNATURE        32, 32 and 64 bytes as hex digits
#pragma once
#include <compare>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "storage/trust/tablet_key.h"

namespace storage {

struct SignedEntry {
  std::string device;  // UUID text
  std::int64_t seq = 0;
  Hash hash{};
  friend auto operator<=>(const SignedEntry&, const SignedEntry&) = default;
};

struct Signature {
  SignedEntry entry;
  PublicKey key{};
  SignatureBytes bytes{};
  friend auto operator<=>(const Signature&, const Signature&) = default;
};

[[nodiscard]] Signature sign(const TabletKey& key, SignedEntry entry);
// By the key that it names. Whether that key is the tablet's is asked elsewhere (trust_rules.h).
[[nodiscard]] bool holds(const Signature& signature);

inline constexpr std::size_t kMostSignatures = 10'000;                   // of one file
inline constexpr std::size_t kLargestSignatures = std::size_t{4} << 20;  // bytes of one file

// One line without its end, and back; false when it is none.
[[nodiscard]] std::string to_line(const Signature& signature);
[[nodiscard]] bool parse_line(std::string_view line, Signature& signature);

[[nodiscard]] std::string signatures_text(std::span<const Signature> signatures);

// All lines that are signatures, whether they hold or not, and how many are none.
struct ReadSignatures {
  std::vector<Signature> signatures;
  std::size_t bad_lines = 0;
};
[[nodiscard]] ReadSignatures read_signatures(std::string_view text);

}  // namespace storage
