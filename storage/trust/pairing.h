// storage/trust/pairing.h -- how a key gets from one tablet to another by way of people: as eight
// words that one reads out and the other types, or as a QR code that one shows and the other scans.
//
// The eight words are the first 80 bits of SHA-256 of "duskwalk words 1", a line feed and the 32
// bytes of the key, ten bits a word, the highest bits first. Whoever wants to pass for a tablet
// whose words were read out needs another key with the same 80 bits: 2^79 keys to try on average,
// which at a thousand million keys a second takes 19 million years. A collision that an attacker
// prepares with two keys of its own (2^40) is worth nothing: both keys are the attacker's. So 80
// bits are enough where people compare, and eight words are what they still read out gladly; the
// QR code carries all 256 bits.
//
// Pairing is done both ways: each tablet is told the other's words. Nothing but the words goes
// across, so it may be done before any bundle, and by telephone with somebody whose voice is known.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "storage/trust/tablet_key.h"

namespace storage {

inline constexpr std::size_t kWordsOfAKey = 8;
using Fingerprint = std::array<std::uint8_t, 10>;  // 80 bits

[[nodiscard]] Fingerprint fingerprint(const PublicKey& key);

// "acorn barley ..." with one blank between.
[[nodiscard]] std::string words_of(const Fingerprint& fingerprint);
// Back: capitals, and what stands between the words, do not matter; the first four letters of a
// word are enough. BadInput names the first that is none, or says how many there are.
[[nodiscard]] engine::Result<Fingerprint> fingerprint_of_words(std::string_view text);

// 20 hex digits, and back.
[[nodiscard]] std::string to_text(const Fingerprint& fingerprint);
[[nodiscard]] std::optional<Fingerprint> fingerprint_from_text(std::string_view text);

// What the QR code says: "DWKEY" and 64 hexadecimal digits in capitals, which a scanner acting as a
// keyboard types alike on every layout (as engine/events/tag.h).
[[nodiscard]] std::string pairing_code(const PublicKey& key);
// Blanks around it and small letters do not matter; nullopt: no such code.
[[nodiscard]] std::optional<PublicKey> key_of_code(std::string_view scanned);

}  // namespace storage
