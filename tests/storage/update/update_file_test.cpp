// SPDX-License-Identifier: MIT
// Update files are made here by libsodium's signing half; tests/packaging/update_test.sh has them
// signed by OpenSSL. That the signature is Ed25519 is held to the vectors of RFC 8032, section 7.1.
#include "storage/update/update_file.h"

#include <doctest/doctest.h>
#include <fmt/format.h>
#include <sodium.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "storage/disk/sha256.h"

namespace update_file_test {

using engine::Code;

namespace {

std::string hex_of(const unsigned char* bytes, std::size_t size) {
  std::string out;
  for (std::size_t i = 0; i < size; ++i) out += fmt::format("{:02x}", bytes[i]);
  return out;
}

struct Maker {
  storage::UpdateKey open{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};

  explicit Maker(unsigned char seed) {
    REQUIRE(sodium_init() >= 0);
    std::array<unsigned char, crypto_sign_SEEDBYTES> seeds{};
    seeds.fill(seed);
    crypto_sign_seed_keypair(open.data(), secret.data(), seeds.data());
  }
  [[nodiscard]] std::string signed_text(const std::string& lines) const {
    std::array<unsigned char, crypto_sign_BYTES> signature{};
    crypto_sign_detached(signature.data(), nullptr,
                         reinterpret_cast<const unsigned char*>(lines.data()), lines.size(),
                         secret.data());
    return lines + "signature " + hex_of(signature.data(), signature.size()) + "\n\n";
  }
};

struct Parts {
  std::string name;
  std::string version = "0.2.0", architecture = "amd64", store = "1";
  std::string payload = "a whole system";

  [[nodiscard]] std::string lines() const {
    return fmt::format(
        "duskwalk-update 1\nversion {}\narchitecture {}\nstore {}\nbytes {}\nsha256 {}\n", version,
        architecture, store, payload.size(), storage::hex(storage::sha256(payload)));
  }
};

class File {
 public:
  explicit File(const std::string& bytes) {
    folder_ = std::filesystem::temp_directory_path() / "duskwalk-update-XXXXXX";
    folder_ = ::mkdtemp(folder_.data());
    std::ofstream(path(), std::ios::binary) << bytes;
  }
  ~File() { std::filesystem::remove_all(folder_); }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  [[nodiscard]] std::string path() const { return folder_ + "/x.update"; }

 private:
  std::string folder_;
};

const storage::RunningSystem kRunning{"0.1.0", "amd64", 1};

engine::Status checked(const std::string& bytes, const storage::UpdateKey& key) {
  const File file(bytes);
  return storage::check_update(file.path(), key, kRunning).status();
}

struct Refused {
  Parts parts;
  std::string says;
};

}  // namespace

TEST_CASE("a later version that the maker signed goes in, byte by byte as it was checked") {
  const Maker maker(1);
  const Parts parts{"whole"};
  const File file(maker.signed_text(parts.lines()) + parts.payload);
  std::string taken;
  const auto header =
      storage::check_update(file.path(), maker.open, kRunning, [&](std::string_view piece) {
        taken += piece;
        return engine::Status{};
      });
  REQUIRE(header.ok());
  CHECK(header.value().version == "0.2.0");
  CHECK(taken == parts.payload);
}

TEST_CASE("each byte that is changed, missing or added is noticed, in one line") {
  const Maker maker(1);
  const Parts parts{"whole"};
  const std::string whole = maker.signed_text(parts.lines()) + parts.payload;
  REQUIRE(checked(whole, maker.open).ok());
  for (std::size_t at = 0; at < whole.size(); ++at) {
    CAPTURE(at);
    std::string wrong = whole;
    wrong[at] = static_cast<char>(wrong[at] ^ 1);
    const engine::Status changed = checked(wrong, maker.open);
    CHECK_FALSE(changed.ok());
    CHECK(changed.message().find('\n') == std::string::npos);
    CHECK_FALSE(checked(whole.substr(0, at), maker.open).ok());
  }
  CHECK_FALSE(checked(whole + "x", maker.open).ok());
  const auto cut = checked(whole.substr(0, whole.size() - 5), maker.open);
  CHECK(cut.message() ==
        "the update is cut off: 9 of 14 bytes are there; copy it onto the stick again");
}

TEST_CASE("what another key signed is refused") {
  const Parts parts{"whole"};
  const auto said = checked(Maker(2).signed_text(parts.lines()) + parts.payload, Maker(1).open);
  CHECK(said.code() == Code::Damaged);
  CHECK(said.message().find("not signed") != std::string::npos);
}

TEST_CASE("what is signed but does not fit this tablet is refused") {
  const Maker maker(1);
  const Refused all[] = {
      {{"the same version", "0.1.0"}, "version 0.1.0, no later than the 0.1.0 that runs"},
      {{"a downgrade", "0.0.9"}, "version 0.0.9, no later than the 0.1.0 that runs"},
      {{"another processor", "0.2.0", "arm64"}, "for arm64; this tablet is amd64"},
      {{"older stores only", "0.2.0", "amd64", "0"}, "stores of format 0, this tablet's is 1"},
      {{"no version", "soon"}, "is no such thing"},
      {{"no number", "0.2.0", "amd64", "one"}, "is no such thing"},
  };
  for (const Refused& one : all) {
    CAPTURE(one.parts.name);
    const auto said = checked(maker.signed_text(one.parts.lines()) + one.parts.payload, maker.open);
    CHECK(said.code() == Code::BadInput);
    CHECK(said.message().find(one.says) != std::string::npos);
  }
}

TEST_CASE("a payload that cannot be kept ends the check with its own reason") {
  const Maker maker(1);
  const Parts parts{"whole"};
  const File file(maker.signed_text(parts.lines()) + parts.payload);
  const auto full = storage::check_update(file.path(), maker.open, kRunning, [](std::string_view) {
    return engine::Status{Code::Full, "no room"};
  });
  CHECK(full.status().message() == "no room");
}

TEST_CASE("versions are ordered by their numbers") {
  struct Pair {
    std::string name, a, b;
    std::optional<int> order;
  };
  const Pair all[] = {
      {"tens", "0.9.0", "0.10.0", -1},      {"same", "1.2", "1.2.0", 0},
      {"later", "2.0.0", "1.99.99", 1},     {"a word", "1.x", "1.0", std::nullopt},
      {"nothing", "", "1.0", std::nullopt}, {"a dot", "1.", "1.0", std::nullopt},
      {"too long", "1.2.3.4.5", "1.0", {}}, {"a sign", "-1.0", "1.0", std::nullopt},
  };
  for (const Pair& one : all) {
    CAPTURE(one.name);
    CHECK(storage::compare_versions(one.a, one.b) == one.order);
  }
}

// RFC 8032, section 7.1, TEST 2: the message is the byte 72; checked here as the key of an update.
TEST_CASE("the key is one of RFC 8032") {
  const auto key = storage::read_update_key(
      "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c\n");
  REQUIRE(key);
  std::array<unsigned char, crypto_sign_BYTES> signature{};
  const std::string digits =
      "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
      "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00";
  sodium_hex2bin(signature.data(), signature.size(), digits.data(), digits.size(), nullptr, nullptr,
                 nullptr);
  const unsigned char message = 0x72;
  CHECK(crypto_sign_verify_detached(signature.data(), &message, 1, key->data()) == 0);
  CHECK_FALSE(storage::read_update_key("3d40"));
  CHECK_FALSE(storage::read_update_key(std::string(64, 'g')));
}

}  // namespace update_file_test
