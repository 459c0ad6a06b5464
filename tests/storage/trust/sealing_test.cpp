#include "storage/trust/sealing.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "tests/support/journal_fixture.h"

namespace sealing_test {

using namespace storage;

namespace {

constexpr SealCost kQuick{1, 8192};  // the least that Argon2id takes
const std::string kPhrase = "seven green ladders";

SealRead from(const std::string& text, std::size_t& at) {
  return [&text, &at](char* to, std::size_t most) -> engine::Result<std::size_t> {
    const std::size_t size = std::min(most, text.size() - at);
    std::copy_n(text.data() + at, size, to);
    at += size;
    return size;
  };
}

SealWrite to(std::string& text) {
  return [&text](std::string_view bytes) {
    text += bytes;
    return engine::Status{};
  };
}

std::string sealed(const std::string& text) {
  std::size_t at = 0;
  std::string out;
  const auto done = seal(kPhrase, from(text, at), to(out), kQuick);
  REQUIRE_MESSAGE(done.ok(), done.message());
  return out;
}

engine::Status opened(const std::string& bytes, std::string& text,
                      const std::string& phrase = kPhrase) {
  std::size_t at = 0;
  text.clear();
  return unseal(phrase, from(bytes, at), to(text));
}

std::string lines(std::size_t bytes) {
  std::string text;
  while (text.size() < bytes) text += "line " + std::to_string(text.size()) + "\n";
  text.resize(bytes);
  return text;
}

std::string read_all(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("what is sealed opens with its passphrase, whatever its size, and shows nothing") {
  constexpr std::size_t kPiece = 65536;
  for (const std::size_t size :
       {std::size_t{0}, std::size_t{1}, kPiece - 1, kPiece, kPiece + 1, 3 * kPiece + 500}) {
    INFO(size);
    const std::string text = lines(size), bytes = sealed(text);
    std::string back;
    CHECK(opened(bytes, back).ok());
    CHECK(back == text);
    CHECK(is_sealed(bytes));
    if (size > 20) CHECK(bytes.find(text.substr(0, 20)) == bytes.npos);
    CHECK(sealed(text) != bytes);  // another salt
  }
}

TEST_CASE("another passphrase, a changed bit, a cut, an added or a moved piece: nothing opens") {
  constexpr std::size_t kPieces = 65536 + 17;
  const std::string text = lines(3 * 65536 + 500), bytes = sealed(text);
  const std::size_t head = bytes.size() - 3 * kPieces - 517;
  std::string back;
  CHECK(opened(bytes, back, kPhrase + "s").code() == engine::Code::BadInput);
  CHECK(opened(bytes, back, "short").code() == engine::Code::BadInput);
  for (std::size_t at = 0; at < bytes.size(); at += at < 200 ? 1 : 4999) {
    std::string other = bytes;
    other[at] = static_cast<char>(other[at] ^ 1);
    INFO(at);
    const auto status = opened(other, back);
    CHECK_FALSE(status.ok());
    CHECK(status.message().find('\n') == std::string::npos);
  }
  for (const std::size_t size :
       {head - 1, head, head + 10, head + kPieces, head + 2 * kPieces, bytes.size() - 1})
    CHECK_FALSE(opened(bytes.substr(0, size), back).ok());
  CHECK_FALSE(opened(bytes + "x", back).ok());
  std::string moved = bytes;
  std::swap_ranges(moved.begin() + static_cast<std::ptrdiff_t>(head),
                   moved.begin() + static_cast<std::ptrdiff_t>(head + kPieces),
                   moved.begin() + static_cast<std::ptrdiff_t>(head + kPieces));
  CHECK_FALSE(opened(moved, back).ok());
}

TEST_CASE("a head that asks for more memory than any of ours is refused at once") {
  std::string bytes = sealed("text");
  bytes[18 + 8 + 4] = 1;  // four gigabytes more
  std::string back;
  CHECK(opened(bytes, back).code() == engine::Code::BadInput);
}

TEST_CASE("a sealed file is read back before it has its name, and is for its owner alone") {
  const fixture::Folder folder;
  std::ofstream(folder / "plain") << lines(200'000);
  REQUIRE(seal_file(folder / "plain", folder / "sealed", kPhrase, kQuick).ok());
  struct stat s {};
  REQUIRE(::stat((folder / "sealed").c_str(), &s) == 0);
  CHECK((s.st_mode & 0777) == 0600);
  CHECK(is_sealed_file(folder / "sealed"));
  CHECK_FALSE(is_sealed_file(folder / "plain"));
  CHECK_FALSE(is_sealed_file(folder / "none"));
  CHECK_FALSE(seal_file(folder / "plain", folder / "sealed", kPhrase, kQuick).ok());  // it is there
  REQUIRE(unseal_file(folder / "sealed", folder / "again", kPhrase).ok());
  CHECK(read_all(folder / "again") == read_all(folder / "plain"));
  CHECK_FALSE(unseal_file(folder / "sealed", folder / "third", kPhrase + "!").ok());
  CHECK_FALSE(std::filesystem::exists(folder / "third"));
  CHECK_FALSE(seal_file(folder / "none", folder / "fourth", kPhrase, kQuick).ok());
  CHECK_FALSE(std::filesystem::exists(folder / "fourth"));
}

}  // namespace sealing_test
