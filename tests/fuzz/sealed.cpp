#include <algorithm>

#include "storage/trust/sealing.h"
#include "tests/fuzz/targets.h"

namespace {

constexpr storage::SealCost kLeast{1, 8192};
const char* const kPhrase = "seven green ladders";

storage::SealRead from(std::string_view text, std::size_t& at) {
  return [text, &at](char* to, std::size_t most) -> engine::Result<std::size_t> {
    const std::size_t size = std::min(most, text.size() - at);
    std::copy_n(text.data() + at, size, to);
    at += size;
    return size;
  };
}

engine::Status opened(std::string_view bytes, std::string& text) {
  std::size_t at = 0;
  return storage::unseal(
      kPhrase, from(bytes, at),
      [&text](std::string_view piece) {
        text += piece;
        return engine::Status{};
      },
      kLeast);
}

}  // namespace

// The first four bytes say where one byte of a sealed text is changed; the rest is that text. And
// the bytes as they are.
void fuzz::sealed(std::string_view bytes) {
  std::string none;
  (void)opened(bytes, none);
  if (bytes.size() < 5) return;
  std::size_t place = 0, at = 0;
  for (const char c : bytes.substr(0, 4)) place = place << 8 | static_cast<unsigned char>(c);
  const std::string_view text = bytes.substr(4);
  std::string sealed, back;
  const auto done = storage::seal(
      kPhrase, from(text, at),
      [&sealed](std::string_view piece) {
        sealed += piece;
        return engine::Status{};
      },
      kLeast);
  must(done.ok(), "anything can be sealed");
  must(opened(sealed, back).ok() && back == text, "and opens as it was");
  const char was = sealed[place % sealed.size()];
  sealed[place % sealed.size()] = static_cast<char>(was ^ (1 + (text[0] & 0x7F)));
  back.clear();
  must(!opened(sealed, back).ok(), "whatever was changed is noticed");
}
