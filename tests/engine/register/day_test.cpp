#include "engine/register/day.h"

#include <algorithm>

#include "engine/register/log_index.h"
#include "tests/support/register_fixture.h"

namespace day_test {

using namespace engine;
using namespace fixture;

TEST_CASE("a day holds every entry of its local date and no other") {
  Pen pen = evening();
  const std::size_t of_the_day = pen.farm.log.size();
  pen.now = *stamp_from_rfc3339("2026-08-14T23:59:59-07:00");
  pen.write(NoteWritten{kYard, {}, "last of the day"});
  pen.now = *stamp_from_rfc3339("2026-08-15T00:00:00-07:00");
  pen.write(NoteWritten{kYard, {}, "first of the next"});
  LogIndex book;
  book.read_all(pen.farm);
  CHECK(book.of_day(date(2026, 8, 14)).size() == of_the_day + 1);
  CHECK(book.of_day(date(2026, 8, 15)).size() == 1);
  CHECK(book.of_day(date(2026, 8, 16)).empty());
  CHECK(day_rows(pen.farm, {}, kSi).size() == of_the_day + 2);
  CHECK(book.day_before(date(2026, 8, 16)) == date(2026, 8, 15));
  CHECK(book.day_before(date(2026, 8, 15)) == date(2026, 8, 14));
  CHECK(!book.day_before(date(2026, 8, 14)));
  CHECK(book.day_after(date(2026, 8, 14)) == date(2026, 8, 15));
  CHECK(!book.day_after(date(2026, 8, 15)));
}

TEST_CASE("a row of the day says where, which colony and what") {
  const Farm farm = evening().farm;
  const auto rows = day_rows(farm, date(2026, 8, 14), kSi);
  CHECK(rows.size() == farm.log.size());
  const auto at = std::find_if(rows.begin(), rows.end(), [](const DayRow& r) {
    return r.kind == "vaporizer_set" && r.colony == "A3";
  });
  REQUIRE(at != rows.end());
  CHECK(at->yard == "Thistle Bank");
  CHECK(at->what == "A3: 5 g dihydrate set, vaporizer 1, lot 24-118");
}

TEST_CASE("a struck entry stays in the day, marked, and so does its strike") {
  const auto rows = day_rows(evening().farm, {}, kSi);
  int struck = 0, strikes = 0;
  for (const DayRow& r : rows) {
    struck += r.struck.has_value() ? 1 : 0;
    strikes += r.kind == "entry_struck" ? 1 : 0;
    if (r.struck) CHECK(r.colony == "A6");
    if (r.kind == "entry_struck") CHECK(r.colony == "A6");
  }
  CHECK(struck == 1);
  CHECK(strikes == 1);
}

}  // namespace day_test
