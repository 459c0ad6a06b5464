#include "storage/trust/tablet_key.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "storage/trust/signature.h"
#include "tests/support/journal_fixture.h"

namespace tablet_key_test {

using namespace fixture;
using storage::TabletKey;

namespace {

std::string read_all(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

void write_all(const std::string& path, const std::string& text) {
  std::ofstream(path, std::ios::binary | std::ios::trunc) << text;
}

std::array<std::uint8_t, 32> seed_of(std::string_view digits) {
  storage::Hash seed{};
  REQUIRE(storage::from_hex(digits, seed));
  return seed;
}

storage::Signature signature() {
  return storage::sign(TabletKey::from_seed(seed_of(std::string(64, '7'))),
                       {kTablet, 12, storage::sha256("an entry")});
}

}  // namespace

// RFC 8032, 7.1, TEST 1: a seed, its public key, and the signature of the empty text.
TEST_CASE("keys and signatures are those of RFC 8032") {
  const TabletKey key = TabletKey::from_seed(
      seed_of("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"));
  CHECK(storage::hex(key.public_key()) ==
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a");
  const storage::SignatureBytes bytes = key.sign("");
  storage::Hash half{};
  REQUIRE(
      storage::from_hex("e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e06522490155", half));
  CHECK(std::equal(half.begin(), half.end(), bytes.begin()));
  REQUIRE(
      storage::from_hex("5fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b", half));
  CHECK(std::equal(half.begin(), half.end(), bytes.begin() + 32));
  CHECK(storage::signature_holds(key.public_key(), "", bytes));
  CHECK_FALSE(storage::signature_holds(key.public_key(), " ", bytes));
}

TEST_CASE("a key is made once, lies beside the store, and only its owner may read it") {
  const Folder folder;
  const std::string store = folder / "farm.journal";
  CHECK(TabletKey::read(store).status().code() == engine::Code::NotFound);
  const mode_t umask_was = ::umask(0);
  const auto made = TabletKey::read_or_make(store);
  ::umask(umask_was);
  REQUIRE(made.ok());
  struct stat s {};
  REQUIRE(::stat(storage::key_path(store).c_str(), &s) == 0);
  CHECK((s.st_mode & 0777) == 0600);
  const auto again = TabletKey::read_or_make(store);
  REQUIRE(again.ok());
  CHECK(again.value().public_key() == made.value().public_key());
  CHECK(TabletKey::read_or_make(folder / "other").value().public_key() !=
        made.value().public_key());
}

TEST_CASE("a file that is no key is named, and nothing is written over it") {
  const Folder folder;
  const std::string store = folder / "farm.journal", path = storage::key_path(store);
  REQUIRE(TabletKey::read_or_make(store).ok());
  const std::string whole = read_all(path);
  std::string other_public = whole;
  other_public[other_public.size() - 2] = other_public[other_public.size() - 2] == '0' ? '1' : '0';
  for (const std::string& text :
       {std::string(), std::string("my key"), whole.substr(0, 40), whole + "more", other_public}) {
    INFO(text);
    write_all(path, text);
    const auto read = TabletKey::read_or_make(store);
    CHECK(read.status().code() == engine::Code::Damaged);
    CHECK(read.status().message().find('\n') == std::string::npos);
    CHECK(read_all(path) == text);
  }
}

TEST_CASE("a link or a pipe in the place of a key is neither read nor written") {
  const Folder folder;
  const std::string store = folder / "farm.journal", path = storage::key_path(store);
  REQUIRE(TabletKey::read_or_make(folder / "other").ok());
  std::filesystem::create_symlink(storage::key_path(folder / "other"), path);
  CHECK_FALSE(TabletKey::read_or_make(store).ok());
  std::filesystem::remove(path);
  REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
  CHECK_FALSE(TabletKey::read_or_make(store).ok());  // and does not wait
}

TEST_CASE("a signature holds for the tablet, number and hash that it names, and for no other") {
  const storage::Signature whole = signature();
  REQUIRE(storage::holds(whole));
  storage::Signature s = whole;
  s.entry.device = kOther;
  CHECK_FALSE(storage::holds(s));
  s = whole;
  ++s.entry.seq;
  CHECK_FALSE(storage::holds(s));
  s = whole;
  s.entry.hash = storage::sha256("another");
  CHECK_FALSE(storage::holds(s));
  s = whole;
  s.key = TabletKey::from_seed(seed_of(std::string(64, '8'))).public_key();
  CHECK_FALSE(storage::holds(s));
}

TEST_CASE("signatures go through their text and come back; what is none is counted") {
  const storage::Signature s = signature();
  const std::string text = storage::signatures_text(std::vector{s, s});
  const auto read = storage::read_signatures(text);
  CHECK(read.bad_lines == 0);
  CHECK(read.signatures == std::vector{s, s});
  CHECK(storage::read_signatures("").bad_lines == 1);
  CHECK(storage::read_signatures("duskwalk signatures 1\n").bad_lines == 0);
  const std::string line = storage::to_line(s);
  const std::string number = " 12 ";
  for (const char* wrong : {" 012 ", " +12 ", " 0 ", " -3 ", "  ", " 99999999999999999999 "}) {
    std::string other = line;
    other.replace(other.find(number), number.size(), wrong);
    INFO(other);
    storage::Signature none;
    CHECK_FALSE(storage::parse_line(other, none));
  }
  CHECK(storage::read_signatures(text + line).bad_lines == 1);  // its end is missing
  CHECK(storage::read_signatures(text + line + "0\n").bad_lines == 1);
}

}  // namespace tablet_key_test
