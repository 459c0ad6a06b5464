#include "storage/trust/signature.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "storage/journal/record.h"

namespace storage {
namespace {

constexpr std::string_view kSignaturesHead = "duskwalk signatures 1\n";
constexpr std::string_view kWord = "signed ";

std::string signed_text(const SignedEntry& e) {
  return fmt::format("duskwalk entry 1\n{}\n{}\n{}\n", e.device, e.seq, hex(e.hash));
}

std::string_view next_word(std::string_view& text) {
  const std::size_t end = text.find(' ');
  const std::string_view word = text.substr(0, end);
  text.remove_prefix(end == text.npos ? text.size() : end + 1);
  return word;
}

// As a tablet counts: from 1, without a sign or leading zeros.
bool parse_number(std::string_view text, std::int64_t& number) {
  const auto [end, wrong] = std::from_chars(text.data(), text.data() + text.size(), number);
  return wrong == std::errc() && end == text.data() + text.size() && number > 0 &&
         text.front() != '0';
}

bool parse_bytes(std::string_view text, SignatureBytes& bytes) {
  Hash front{}, back{};
  constexpr std::size_t kHalf = 64;
  if (text.size() != 2 * kHalf || !from_hex(text.substr(0, kHalf), front) ||
      !from_hex(text.substr(kHalf), back))
    return false;
  std::copy(front.begin(), front.end(), bytes.begin());
  std::copy(back.begin(), back.end(), bytes.begin() + front.size());
  return true;
}

std::string hex_of(const SignatureBytes& bytes) {
  Hash front{}, back{};
  std::copy_n(bytes.begin(), front.size(), front.begin());
  std::copy_n(bytes.begin() + front.size(), back.size(), back.begin());
  return hex(front) + hex(back);
}

}  // namespace

Signature sign(const TabletKey& key, SignedEntry entry) {
  const SignatureBytes bytes = key.sign(signed_text(entry));
  return {std::move(entry), key.public_key(), bytes};
}

bool holds(const Signature& s) { return signature_holds(s.key, signed_text(s.entry), s.bytes); }

std::string to_line(const Signature& s) {
  return fmt::format("{}{} {} {} {} {}", kWord, s.entry.device, s.entry.seq, hex(s.entry.hash),
                     hex(s.key), hex_of(s.bytes));
}

bool parse_line(std::string_view line, Signature& s) {
  if (!line.starts_with(kWord)) return false;
  line.remove_prefix(kWord.size());
  s.entry.device = next_word(line);
  const bool entry = is_uuid_text(s.entry.device) && parse_number(next_word(line), s.entry.seq) &&
                     from_hex(next_word(line), s.entry.hash);
  return entry && from_hex(next_word(line), s.key) && parse_bytes(line, s.bytes);
}

std::string signatures_text(std::span<const Signature> signatures) {
  std::string text(kSignaturesHead);
  for (const Signature& s : signatures) text += to_line(s) + "\n";
  return text;
}

ReadSignatures read_signatures(std::string_view text) {
  ReadSignatures read;
  if (!text.starts_with(kSignaturesHead)) {
    read.bad_lines = 1;
    return read;
  }
  text.remove_prefix(kSignaturesHead.size());
  while (!text.empty() && read.signatures.size() < kMostSignatures) {
    const std::size_t end = text.find('\n');
    Signature s;
    if (end != text.npos && parse_line(text.substr(0, end), s))
      read.signatures.push_back(std::move(s));
    else
      ++read.bad_lines;
    text.remove_prefix(end == text.npos ? text.size() : end + 1);
  }
  if (!text.empty()) ++read.bad_lines;
  return read;
}

}  // namespace storage
