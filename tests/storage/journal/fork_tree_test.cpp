#include "storage/journal/fork_tree.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "storage/journal/record.h"
#include "tests/support/journal_fixture.h"

namespace fork_tree_test {

using namespace storage;
using fixture::kTablet;

namespace {

const engine::DeviceId kOwn{*engine::uuid_from_text(kTablet)};

// An event that hangs on `prev`; `word` makes it differ from others of that number.
ChainLink next(const ChainLink& on, const std::string& word) {
  return {on.seq + 1, seal_hash(on.hash, word), on.hash};
}

std::vector<ChainLink> chain(const ChainLink& on, int events, const std::string& word) {
  std::vector<ChainLink> all;
  for (int n = 0; n < events; ++n) all.push_back(next(all.empty() ? on : all.back(), word));
  return all;
}

std::vector<ChainLink> operator+(std::vector<ChainLink> a, const std::vector<ChainLink>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

std::optional<engine::DeviceId> name_of(const ForkTree& tree, const ChainLink& link) {
  return tree.name_of(link.seq, link.hash);
}

const engine::Branch* branch_at(const ForkTree& tree, const ChainLink& first) {
  return engine::find_branch(tree.branches(), derived_id(kTablet, first.hash));
}

}  // namespace

TEST_CASE("the events of one chain have no branches, and all go by the tablet's id") {
  const auto line = chain({}, 5, "a");
  const ForkTree tree(kTablet, line + line);
  CHECK(tree.branches().empty());
  CHECK(tree.waiting() == 0);
  for (const ChainLink& link : line) CHECK(name_of(tree, link) == kOwn);
  CHECK_FALSE(name_of(tree, next(line[1], "elsewhere")));
}

TEST_CASE("from an event that several follow, each of them begins a branch") {
  const auto trunk = chain({}, 3, "a");
  const auto one = chain(trunk[2], 3, "b"), two = chain(trunk[2], 1, "c");
  const auto sub = chain(one[0], 2, "d");
  const ForkTree tree(kTablet, trunk + one + two + sub);
  REQUIRE(tree.branches().size() == 4);
  CHECK(name_of(tree, trunk[2]) == kOwn);
  const auto* first = branch_at(tree, one[0]);
  REQUIRE(first != nullptr);
  CHECK(*first == engine::Branch{derived_id(kTablet, one[0].hash), kOwn, kOwn, 4});
  REQUIRE(branch_at(tree, sub[0]) != nullptr);
  CHECK(branch_at(tree, sub[0])->after == first->id);
  CHECK(branch_at(tree, sub[0])->from == 5);
  CHECK(name_of(tree, sub[1]) == branch_at(tree, sub[0])->id);
  CHECK(name_of(tree, one[2]) == branch_at(tree, one[1])->id);
  CHECK(name_of(tree, two[0]) == branch_at(tree, two[0])->id);
}

TEST_CASE("where already the first events differ, nothing goes by the tablet's id") {
  const auto one = chain({}, 2, "a"), two = chain({}, 1, "b"), three = chain({}, 1, "c");
  const ForkTree tree(kTablet, one + two + three);
  REQUIRE(tree.branches().size() == 3);
  for (const engine::Branch& b : tree.branches()) {
    CHECK(b.after == kOwn);
    CHECK(b.from == 1);
  }
  CHECK(name_of(tree, one[1]) == branch_at(tree, one[0])->id);
}

TEST_CASE("what hangs on nothing that is here waits, and the numbers before it are missing") {
  struct Row {
    std::string name;
    std::vector<ChainLink> here;
    std::int64_t waiting;
    std::string missing;
  };
  const auto line = chain({}, 6, "a"), other = chain(line[1], 4, "b");
  const Row rows[] = {
      {"nothing missing", line, 0, ""},
      {"a hole in the one chain", {line[0], line[3], line[4]}, 2, "2-3"},
      {"no beginning", {line[4]}, 1, "1-4"},
      {"the number is here, but of another side", line + std::vector{other[2], other[3]}, 2, "4"},
      {"behind the end of the other side", {line[0], line[1], line[2], other[3]}, 1, "4-5"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const ForkTree tree(kTablet, r.here);
    CHECK(tree.waiting() == r.waiting);
    CHECK(to_text(tree.missing()) == r.missing);
    CHECK(tree.branches().empty());  // of what waits nobody knows on which side it is
  }
}

TEST_CASE("the same events give the same names in any order and number") {
  std::mt19937 random(11);  // fixed: the same run each time
  for (int run = 0; run < 50; ++run) {
    std::vector<ChainLink> all = chain({}, 2, "a");
    for (int n = 0; n < 40; ++n)
      all.push_back(next(random() % 3 == 0 ? all[random() % all.size()] : all.back(),
                         std::to_string(random() % 4)));
    const ForkTree want(kTablet, all);
    CHECK(want.waiting() == 0);
    auto shuffled = all + all;
    std::shuffle(shuffled.begin(), shuffled.end(), random);
    const ForkTree tree(kTablet, shuffled);
    CHECK(tree.branches() == want.branches());
    for (const ChainLink& link : all) CHECK(name_of(tree, link) == name_of(want, link));
  }
}

// RFC 9562, 4.1 and 5.8: the variant bits are 10, the version's are 1000.
TEST_CASE("a branch's id is a UUID of version 8 that follows from tablet and first event") {
  const auto id = derived_id(kTablet, sha256("a"));
  CHECK(engine::text(id)[14] == '8');
  CHECK(std::string("89ab").find(engine::text(id)[19]) != std::string::npos);
  CHECK(id == derived_id(kTablet, sha256("a")));
  CHECK(id != derived_id(kTablet, sha256("b")));
  CHECK(id != derived_id(fixture::kOther, sha256("a")));
  // $ printf 'duskwalk side\n%s\n%s\n' DEVICE HASH | sha256sum
  CHECK(engine::text(id) == "cd8ed75e-807b-8380-8d9e-7419fea363f3");
}

}  // namespace fork_tree_test
