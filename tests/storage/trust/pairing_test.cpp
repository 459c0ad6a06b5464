#include "storage/trust/pairing.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <set>

#include "storage/trust/word_list.h"

namespace pairing_test {

using namespace storage;

namespace {

// One letter wrong, missing, added, or two neighbours exchanged.
bool alike(std::string_view a, std::string_view b) {
  if (a.size() > b.size()) std::swap(a, b);
  if (b.size() - a.size() > 1) return false;
  const auto [left, right] = std::mismatch(a.begin(), a.end(), b.begin());
  const std::string_view rest_a(left, a.end()), rest_b(right, b.end());
  if (a.size() < b.size()) return rest_a == rest_b.substr(1);
  if (rest_a.size() < 2) return true;
  return rest_a.substr(1) == rest_b.substr(1) ||
         (rest_a[0] == rest_b[1] && rest_a[1] == rest_b[0] && rest_a.substr(2) == rest_b.substr(2));
}

PublicKey any_key(std::mt19937& random) {
  PublicKey key{};
  for (auto& byte : key) byte = static_cast<std::uint8_t>(random());
  return key;
}

}  // namespace

TEST_CASE("the list has 1,024 short words that nobody takes for each other") {
  const auto& list = pairing_word_list();
  CHECK(list.size() == 1024);
  CHECK(std::is_sorted(list.begin(), list.end()));
  std::set<std::string_view> begins;
  for (const std::string_view word : list) {
    INFO(word);
    CHECK((word.size() >= 3 && word.size() <= 7));
    CHECK(word.find_first_not_of("abcdefghijklmnopqrstuvwxyz") == word.npos);
    CHECK(begins.insert(word.substr(0, 4)).second);
  }
  std::size_t pairs = 0;
  for (std::size_t i = 0; i < list.size(); ++i)
    for (std::size_t k = i + 1; k < list.size(); ++k) pairs += alike(list[i], list[k]);
  CHECK(pairs == 0);
}

TEST_CASE("eight words say all 80 bits of a key's fingerprint, and come back") {
  std::mt19937 random(11);
  for (int round = 0; round < 300; ++round) {
    const Fingerprint print = fingerprint(any_key(random));
    const std::string words = words_of(print);
    CHECK(std::count(words.begin(), words.end(), ' ') == 7);
    const auto back = fingerprint_of_words(words);
    REQUIRE(back.ok());
    CHECK(back.value() == print);
    CHECK(fingerprint_from_text(to_text(print)) == print);
    for (std::size_t bit = 0; bit < 80; bit += 7) {
      Fingerprint other = print;
      other[bit / 8] ^= static_cast<std::uint8_t>(1U << bit % 8);
      CHECK(words_of(other) != words);
    }
  }
}

TEST_CASE("words are read however people type them, and what is wrong is named") {
  const Fingerprint print = fingerprint(PublicKey{});
  const std::string words = words_of(print);
  std::string loud = words, dashed = words, begun;
  for (char& c : loud) c = c == ' ' ? ' ' : static_cast<char>(c - 'a' + 'A');
  std::replace(dashed.begin(), dashed.end(), ' ', '-');
  for (std::size_t at = 0; at < words.size(); at = words.find(' ', at) + 1) {
    begun += words.substr(at, std::min<std::size_t>(4, words.find(' ', at) - at)) + ", ";
    if (words.find(' ', at) == words.npos) break;
  }
  for (const std::string& typed : {words, loud, dashed, begun, "  " + words + "\n"}) {
    INFO(typed);
    const auto back = fingerprint_of_words(typed);
    REQUIRE(back.ok());
    CHECK(back.value() == print);
  }
  const auto line = [](const std::string& text) {
    const auto read = fingerprint_of_words(text);
    return read.ok() ? std::string("read") : read.status().message();
  };
  CHECK(line("").find("are 0") != std::string::npos);
  CHECK(line("acorn acorn").find("are 2") != std::string::npos);
  CHECK(line(words + " acorn").find("more") != std::string::npos);
  CHECK(line("zzzz" + words.substr(words.find(' '))).find("\"zzzz\"") != std::string::npos);
  CHECK(line("aco aco aco aco aco aco aco aco").find("\"aco\"") != std::string::npos);
}

TEST_CASE("a code that a scanner typed is the key; anything else is none") {
  std::mt19937 random(12);
  const PublicKey key = any_key(random);
  const std::string code = pairing_code(key);
  CHECK(code.find_first_not_of("0123456789ABCDEFDWKEY") == code.npos);  // QR alphanumeric mode
  CHECK(key_of_code(code) == key);
  CHECK(key_of_code("  " + code + "\r\n") == key);
  CHECK_FALSE(key_of_code(code.substr(1)));
  CHECK_FALSE(key_of_code(code + "0"));
  CHECK_FALSE(key_of_code("DW" + code.substr(5)));
  CHECK_FALSE(key_of_code(""));
}

}  // namespace pairing_test
