#include "engine/mites/board.h"

#include <doctest/doctest.h>

namespace board_test {

using namespace engine::mites;

TEST_CASE("a sticky board gives an order of magnitude") {
  // Garwood limits of 10: 4.795389 and 18.390356 (standard table).
  const BoardEstimate e = estimate({10, 4}, 40);
  CHECK(e.per_day == doctest::Approx(2.5));
  CHECK(e.colony == doctest::Approx(100));
  CHECK(e.low == doctest::Approx(4.795389 / 4 * 40 / 2));
  CHECK(e.high == doctest::Approx(18.390356 / 4 * 40 * 2));
}

TEST_CASE("an empty board does not mean no mites") {
  const BoardEstimate e = estimate({0, 3}, 40, 1);
  CHECK(e.colony == 0);
  CHECK(e.low == 0);
  CHECK(e.high == doctest::Approx(3.688879 / 3 * 40));
}

}  // namespace board_test
