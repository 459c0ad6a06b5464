#include "ui/platform/dirty_area.h"

#include <doctest/doctest.h>

#include <random>
#include <string>

namespace dirty_area_test {

namespace {

using ui::Box;
using ui::Patch;
using Patches = std::vector<Patch>;

constexpr Box kScreen{0, 0, 1000, 1000};

Patch patch(std::uint64_t look, const Box& where) { return {look, where}; }

bool covered(const Box& b, const std::vector<Box>& boxes) {
  for (const Box& c : boxes)
    if (overlap(b, c) == b) return true;
  return false;
}

// A row of small patches, each of its own look, as the letters of a text are.
Patches row_of(std::uint64_t first_look, int count, int y) {
  Patches p;
  for (int i = 0; i < count; ++i)
    p.push_back(patch(first_look + static_cast<std::uint64_t>(i), {i * 9, y, i * 9 + 9, y + 10}));
  return p;
}

}  // namespace

TEST_CASE("equal frames have no changed box") {
  const Patches a = row_of(1, 40, 100);
  CHECK(ui::changed(a, a, kScreen).empty());
  CHECK(ui::changed({}, {}, kScreen).empty());
}

TEST_CASE("only what was put in, taken out or replaced is in a box") {
  const Patches a = row_of(1, 40, 100);
  struct Row {
    std::string name;
    Patches after;
    Box want;
  };
  Patches in = a, out = a, other = a;
  in.insert(in.begin() + 7, patch(900, {5, 5, 9, 9}));
  out.erase(out.begin() + 3);
  other[4].look = 901;
  const Row rows[] = {
      {"put in", in, {5, 5, 9, 9}},
      {"taken out", out, a[3].where},
      {"replaced", other, a[4].where},
      {"the last is taken out", Patches(a.begin(), a.end() - 1), a.back().where},
      {"the first is taken out", Patches(a.begin() + 1, a.end()), a.front().where},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const auto boxes = ui::changed(a, r.after, kScreen);
    REQUIRE(boxes.size() == 1);
    CHECK(boxes[0] == r.want);
  }
}

TEST_CASE("two changes that exchange their order both count") {
  const Patches a{patch(1, {0, 0, 10, 10}), patch(2, {5, 5, 15, 15}), patch(3, {50, 50, 60, 60})};
  const Patches b{a[1], a[0], a[2]};
  const auto boxes = ui::changed(a, b, kScreen);
  CHECK(covered(overlap(a[0].where, a[1].where), boxes));
}

TEST_CASE("changes far apart stay in boxes of their own, too many are joined") {
  Patches a, b;
  const int count = static_cast<int>(ui::kMostBoxes) + 3;
  for (int i = 0; i < count; ++i) {
    const Box where{(i % 4) * 240, (i / 4) * 240, (i % 4) * 240 + 50, (i / 4) * 240 + 50};
    a.push_back(patch(static_cast<std::uint64_t>(i), where));
    b.push_back(patch(static_cast<std::uint64_t>(i + 100), where));
  }
  const auto three = ui::changed({a.begin(), a.begin() + 3}, {b.begin(), b.begin() + 3}, kScreen);
  CHECK(three == std::vector<Box>{a[0].where, a[1].where, a[2].where});
  const auto boxes = ui::changed(a, b, kScreen);
  CHECK(boxes.size() <= ui::kMostBoxes);
  for (const Patch& p : b) CHECK(covered(p.where, boxes));
}

TEST_CASE("when most of the screen changed all of it is drawn") {
  const Patches a{patch(1, {0, 0, 1000, 900})};
  const Patches b{patch(2, {0, 0, 1000, 900})};
  CHECK(ui::changed(a, b, kScreen) == std::vector<Box>{kScreen});
}

TEST_CASE("boxes never overlap and cover every patch without a partner") {
  std::mt19937 random(7);
  const auto upto = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  for (int round = 0; round < 500; ++round) {
    Patches a;
    for (int i = 0; i < 60; ++i) {
      const int x = upto(900), y = upto(900);
      a.push_back(patch(static_cast<std::uint64_t>(i), {x, y, x + 1 + upto(90), y + 1 + upto(90)}));
    }
    Patches b = a;
    const std::size_t at = static_cast<std::size_t>(upto(60));
    b[at].look = 1000;
    b[at].where.x0 = 0;
    const auto boxes = ui::changed(a, b, kScreen);
    CHECK(covered(a[at].where, boxes));
    CHECK(covered(b[at].where, boxes));
    for (std::size_t i = 0; i < boxes.size(); ++i)
      for (std::size_t k = i + 1; k < boxes.size(); ++k) CHECK(empty(overlap(boxes[i], boxes[k])));
  }
}

TEST_CASE("a text longer than the look-ahead that is replaced is covered whole") {
  const Patches a = row_of(1, 100, 0), b = row_of(5000, 100, 20);
  const auto boxes = ui::changed(a, b, kScreen);
  for (const Patches& all : {a, b})
    for (const Patch& p : all) CHECK(covered(p.where, boxes));
}

}  // namespace dirty_area_test
