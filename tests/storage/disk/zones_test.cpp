#include "storage/disk/zones.h"

#include <doctest/doctest.h>

namespace zones_test {

using namespace std::chrono;

namespace {
engine::Date date(int y, unsigned m, unsigned d) { return engine::Date{year{y}, month{m}, day{d}}; }
}  // namespace

// Rules in force, from the tz database: New York changes on 8 March and 1 November 2026 at 2:00.
TEST_CASE("an offset is the one in force at that moment") {
  const auto at = [](sys_days day, int hour) {
    return storage::zone_offset("America/New_York", sys_seconds{day} + hours{hour}).value();
  };
  CHECK(at(2026y / 3 / 8, 6) == -5h);   // 1:00 standard time
  CHECK(at(2026y / 3 / 8, 7) == -4h);   // 3:00 summer time
  CHECK(at(2026y / 11 / 1, 5) == -4h);  // 1:00, the first time
  CHECK(at(2026y / 11 / 1, 6) == -5h);  // 1:00, the second time
}

TEST_CASE("a day begins at midnight, or when clocks jump over it") {
  CHECK(storage::day_begins("America/New_York", date(2026, 8, 14)).value() ==
        sys_seconds{sys_days{2026y / 8 / 14}} + 4h);
  // Beirut goes to summer time at midnight: 29 March 2026 begins at 1:00, which is 22:00 UTC.
  CHECK(storage::day_begins("Asia/Beirut", date(2026, 3, 29)).value() ==
        sys_seconds{sys_days{2026y / 3 / 28}} + 22h);
  // Samoa had no 30 December 2011.
  CHECK(storage::day_begins("Pacific/Apia", date(2011, 12, 30)).value() ==
        storage::day_begins("Pacific/Apia", date(2011, 12, 31)).value());
}

TEST_CASE("an unknown zone is said so") {
  CHECK_FALSE(storage::zone_offset("Mars/Phobos", sys_seconds{}).ok());
  CHECK(storage::day_begins("", date(2026, 1, 1)).status().message().find("time zone") !=
        std::string::npos);
}

}  // namespace zones_test
