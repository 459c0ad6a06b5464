#include "storage/sheets/cells.h"

#include <doctest/doctest.h>

namespace cells_test {

namespace {

using engine::CountMethod;
using storage::DateOrder;

std::string day(const std::string& text, DateOrder order = DateOrder::Unknown) {
  const auto read = storage::read_date(text, order);
  return read.date ? engine::iso_date(*read.date) : "?";
}

}  // namespace

TEST_CASE("decimal numbers become whole units, rounded half away from zero") {
  CHECK(storage::fixed("1.25", 1, '.') == 13);
  CHECK(storage::fixed("-1.25", 1, '.') == -13);
  CHECK(storage::fixed("40.123456", 6, '.') == 40'123'456);
  CHECK(storage::fixed("-105.5", 6, '.') == -105'500'000);
  CHECK(storage::fixed("+7", 3, '.') == 7000);
  CHECK(storage::fixed("1,5", 1, ',') == 15);
  CHECK(storage::fixed("0.9999999", 6, '.') == 1'000'000);
}

TEST_CASE("what is not plainly a number is none") {
  for (const std::string& bad : std::vector<std::string>{
           "", "-", ".", "1.", ".5", "1,5", "1 000", "1e3", "0x10", "nan", "inf", "12a", "--1",
           "1.2.3", "1234567890", "\xd9\xa3", "1.123456789012345678901", "=1+1"})
    CHECK_FALSE(storage::fixed(bad, 6, '.'));
}

TEST_CASE("whole numbers may carry a short row of zeros, but no thousands") {
  CHECK(storage::whole("12", '.') == 12);
  CHECK(storage::whole("12.0", '.') == 12);
  CHECK(storage::whole("12.00", '.') == 12);
  CHECK_FALSE(storage::whole("1.000", '.'));
  CHECK_FALSE(storage::whole("1,000", ','));
  CHECK_FALSE(storage::whole("12.5", '.'));
}

TEST_CASE("yes and no in the words of spreadsheets") {
  for (const std::string& yes : std::vector<std::string>{"yes", "Y", "TRUE", "x", "1", "2", "on"})
    CHECK(storage::yes_no(yes) == true);
  for (const std::string& no : std::vector<std::string>{"no", "N", "False", "0", "off", "none"})
    CHECK(storage::yes_no(no) == false);
  CHECK_FALSE(storage::yes_no("perhaps"));
}

TEST_CASE("methods of counting by their usual names") {
  CHECK(storage::count_method("Alcohol Wash") == CountMethod::AlcoholWash);
  CHECK(storage::count_method("alcohol_wash") == CountMethod::AlcoholWash);
  CHECK(storage::count_method("sugar-roll") == CountMethod::SugarRoll);
  CHECK(storage::count_method("Natural drop") == CountMethod::StickyBoard);
  CHECK_FALSE(storage::count_method("drone uncapping"));
}

// ISO 8601 calendar dates; 2024 is a leap year, 2026 is none.
TEST_CASE("days that can mean only one thing are read") {
  CHECK(day("2026-08-14") == "2026-08-14");
  CHECK(day("2026-08-14 00:00:00") == "2026-08-14");
  CHECK(day("2026-08-14T19:40:00Z") == "2026-08-14");
  CHECK(day("2026/8/4") == "2026-08-04");
  CHECK(day("4.8.2026") == "2026-08-04");
  CHECK(day("04.08.26") == "2026-08-04");
  CHECK(day("14/08/2026") == "2026-08-14");
  CHECK(day("8/14/26") == "2026-08-14");
  CHECK(day("7/7/2026") == "2026-07-07");
  CHECK(day("29.2.2024") == "2024-02-29");
}

TEST_CASE("days that cannot be, or may be two things, are not") {
  for (const std::string& bad : std::vector<std::string>{
           "", "tomorrow", "29.2.2026", "2026-13-01", "2026-02-30", "0/0/2026", "13/13/2026",
           "46250", "2026", "8/2026", "1/2/3/4", "14-Aug-2026", "2026.08.14", "99999-01-01"})
    CHECK(day(bad) == "?");
  CHECK(day("8/7/2026") == "?");
  CHECK(day("8/7/2026", DateOrder::Mixed) == "?");
  CHECK(storage::read_date("8/7/2026", DateOrder::Unknown).wrong.find("2026-08-14") !=
        std::string::npos);
}

TEST_CASE("the whole column tells which number is the day") {
  CHECK(storage::date_order({"1/2/2026", "13/2/2026"}) == DateOrder::DayFirst);
  CHECK(storage::date_order({"1/2/2026", "2/13/2026"}) == DateOrder::MonthFirst);
  CHECK(storage::date_order({"1/2/2026", "3/4/2026"}) == DateOrder::Unknown);
  CHECK(storage::date_order({"13/2/2026", "2/13/2026"}) == DateOrder::Mixed);
  CHECK(storage::date_order({"2026-02-13", "13.2.2026", "x"}) == DateOrder::Unknown);
  CHECK(day("8/7/2026", DateOrder::DayFirst) == "2026-07-08");
  CHECK(day("8/7/2026", DateOrder::MonthFirst) == "2026-08-07");
}

}  // namespace cells_test
