#include "ui/touch/rect.h"

#include <doctest/doctest.h>

namespace rect_test {

using ui::Rect;

TEST_CASE("a cut takes a strip and leaves the gap free") {
  Rect r{0, 0, 100, 50};
  CHECK(ui::cut_top(r, 10, 5) == Rect{0, 0, 100, 10});
  CHECK(r == Rect{0, 15, 100, 35});
  CHECK(ui::cut_bottom(r, 10, 5) == Rect{0, 40, 100, 10});
  CHECK(r == Rect{0, 15, 100, 20});
  CHECK(ui::cut_left(r, 30, 5) == Rect{0, 15, 30, 20});
  CHECK(ui::cut_right(r, 30, 5) == Rect{70, 15, 30, 20});
  CHECK(r == Rect{35, 15, 30, 20});
}

TEST_CASE("a cut never takes more than there is") {
  Rect r{10, 10, 20, 20};
  CHECK(ui::cut_top(r, 50, 5).h == 20);
  CHECK(r.h == 0);
  CHECK(r.y == 30);
  Rect s{10, 10, 20, 20};
  CHECK(ui::cut_right(s, 18, 5) == Rect{12, 10, 18, 20});
  CHECK(s.w == 0);
  CHECK(ui::inset(s, 30).h == 0);
}

TEST_CASE("grid parts are equal, in reading order and exactly fill the room") {
  const auto cells = ui::grid({0, 0, 320, 210}, 3, 2, 10);
  REQUIRE(cells.size() == 6);
  CHECK(cells[0] == Rect{0, 0, 100, 100});
  CHECK(cells[2] == Rect{220, 0, 100, 100});
  CHECK(cells[3] == Rect{0, 110, 100, 100});
  CHECK(cells[5].right() == 320);
  CHECK(ui::columns({0, 0, 90, 10}, 0, 5).empty());
}

TEST_CASE("fit_count counts gaps only between parts") {
  CHECK(ui::fit_count(100, 100, 10) == 1);
  CHECK(ui::fit_count(99, 100, 10) == 0);
  CHECK(ui::fit_count(209, 100, 10) == 1);
  CHECK(ui::fit_count(210, 100, 10) == 2);
  CHECK(ui::fit_count(100, 0, 10) == 0);
}

TEST_CASE("gap_between is the free space, negative on overlap") {
  CHECK(ui::gap_between({0, 0, 10, 10}, {15, 0, 10, 10}) == 5);
  CHECK(ui::gap_between({0, 0, 10, 10}, {0, 13, 10, 10}) == 3);
  CHECK(ui::gap_between({0, 0, 10, 10}, {5, 5, 10, 10}) == -5);
  CHECK(ui::gap_between({0, 0, 10, 10}, {14, 17, 10, 10}) == 7);
}

}  // namespace rect_test
