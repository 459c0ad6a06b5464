#include "storage/trust/pairing.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "storage/trust/word_list.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;

constexpr unsigned kBitsOfWord = 10;
constexpr std::size_t kLettersThatTell = 4;
constexpr std::string_view kCodeHead = "DWKEY";
constexpr std::size_t kLongestShown = 24;  // of a word that is none

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
char small_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Runs of letters, at most one more than a key has: more are not worth keeping.
std::vector<std::string> words_in(std::string_view text) {
  std::vector<std::string> words;
  bool inside = false;
  for (const char c : text) {
    if (is_letter(c) && !inside) words.emplace_back();
    inside = is_letter(c);
    if (words.size() > kWordsOfAKey) return words;
    if (inside && words.back().size() < kLongestShown) words.back() += small_letter(c);
  }
  return words;
}

// The word's place in the list; nullopt: there is none that begins like it.
std::optional<unsigned> place_of(std::string_view word) {
  const auto& list = pairing_word_list();
  const auto at = std::lower_bound(list.begin(), list.end(), word);
  if (at == list.end()) return std::nullopt;
  const bool enough = word.size() >= kLettersThatTell && at->starts_with(word);
  if (*at != word && !enough) return std::nullopt;
  return static_cast<unsigned>(at - list.begin());
}

}  // namespace

Fingerprint fingerprint(const PublicKey& key) {
  std::string text = "duskwalk words 1\n";
  text.append(key.begin(), key.end());
  const Hash hash = sha256(text);
  Fingerprint first{};
  std::copy_n(hash.begin(), first.size(), first.begin());
  return first;
}

std::string words_of(const Fingerprint& fingerprint) {
  std::string words;
  unsigned bits = 0, have = 0;
  for (const std::uint8_t byte : fingerprint) {
    bits = bits << 8 | byte;
    have += 8;
    if (have < kBitsOfWord) continue;
    have -= kBitsOfWord;
    words += words.empty() ? "" : " ";
    words += pairing_word_list()[bits >> have & (kPairingWords - 1)];
  }
  return words;
}

Result<Fingerprint> fingerprint_of_words(std::string_view text) {
  const auto words = words_in(text);
  if (words.size() != kWordsOfAKey)
    return {Code::BadInput,
            words.size() > kWordsOfAKey
                ? "the words of a tablet are eight, these are more"
                : fmt::format("the words of a tablet are eight, these are {}", words.size())};
  Fingerprint print{};
  unsigned bits = 0, have = 0;
  std::size_t byte = 0;
  for (const std::string& word : words) {
    const auto place = place_of(word);
    if (!place)
      return {Code::BadInput, fmt::format("\"{}\" is no word of the list: look again", word)};
    bits = bits << kBitsOfWord | *place;
    for (have += kBitsOfWord; have >= 8; have -= 8)
      print[byte++] = static_cast<std::uint8_t>(bits >> (have - 8));
  }
  return print;
}

std::string to_text(const Fingerprint& fingerprint) {
  std::string text;
  for (const std::uint8_t byte : fingerprint) text += fmt::format("{:02x}", byte);
  return text;
}

std::optional<Fingerprint> fingerprint_from_text(std::string_view text) {
  Fingerprint print{};
  Hash hash{};
  constexpr std::size_t kHex = 64;
  if (text.size() != 2 * print.size() ||
      !from_hex(std::string(text) + std::string(kHex - text.size(), '0'), hash))
    return std::nullopt;
  std::copy_n(hash.begin(), print.size(), print.begin());
  return print;
}

std::string pairing_code(const PublicKey& key) {
  std::string code = std::string(kCodeHead) + hex(key);
  for (char& c : code)
    if (c >= 'a' && c <= 'f') c = static_cast<char>(c - 'a' + 'A');
  return code;
}

std::optional<PublicKey> key_of_code(std::string_view scanned) {
  const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  while (!scanned.empty() && blank(scanned.front())) scanned.remove_prefix(1);
  while (!scanned.empty() && blank(scanned.back())) scanned.remove_suffix(1);
  std::string text(scanned.substr(0, kCodeHead.size() + 65));
  std::transform(text.begin(), text.end(), text.begin(), small_letter);
  PublicKey key{};
  constexpr std::string_view kSmallHead = "dwkey";
  if (!text.starts_with(kSmallHead) || !from_hex(text.substr(kSmallHead.size()), key))
    return std::nullopt;
  return key;
}

}  // namespace storage
