#include "storage/disk/random.h"

#include <doctest/doctest.h>

#include <set>

namespace random_test {

namespace {

// RFC 9562 section 5.7: version 7 in the upper half of byte 6, variant 10 in the top bits of
// byte 8, the first 48 bits are Unix milliseconds.
bool is_version_7(const engine::UuidBytes& b) {
  return (b[6] & 0xf0) == 0x70 && (b[8] & 0xc0) == 0x80;
}

}  // namespace

TEST_CASE("random ids are version 7 and do not repeat within one millisecond") {
  std::set<engine::UuidBytes> seen;
  for (int i = 0; i < 10'000; ++i) {
    const auto id = storage::new_uuid(1'645'557'742'000);
    CHECK(is_version_7(id));
    seen.insert(id);
  }
  CHECK(seen.size() == 10'000);
}

TEST_CASE("an id begins with its millisecond, as in the example of RFC 9562 A.6") {
  CHECK(engine::uuid_text(storage::new_uuid(1'645'557'742'000)).substr(0, 15) == "017f22e2-79b0-7");
}

TEST_CASE("the same seed gives the same ids, another seed others") {
  storage::IdMaker a(1), again(1), b(2);
  for (int i = 0; i < 100; ++i) {
    const auto id = a(i);
    CHECK(is_version_7(id));
    CHECK(id == again(i));
    CHECK(id != b(i));
  }
}

}  // namespace random_test
