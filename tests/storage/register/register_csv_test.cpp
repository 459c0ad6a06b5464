#include <doctest/doctest.h>

#include <algorithm>

#include "storage/register/register_files.h"
#include "storage/text/csv_out.h"
#include "tests/support/payload_fixture.h"

namespace register_csv_test {

using namespace fixture;

namespace {

// Without the byte order mark.
std::string first_line(const std::string& csv) {
  REQUIRE(csv.starts_with(storage::kByteOrderMark));
  const std::size_t begin = storage::kByteOrderMark.size();
  return csv.substr(begin, csv.find("\r\n") - begin);
}

std::string after_first_line(const std::string& csv) { return csv.substr(csv.find("\r\n") + 2); }

// Of rows without quotes in them.
std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> all(1);
  for (const char c : line) {
    if (c == ',')
      all.emplace_back();
    else
      all.back() += c;
  }
  return all;
}

}  // namespace

// Fields: EU 2019/6 Art. 108, UK Veterinary Medicines Regulations, 7 USC 6519.
TEST_CASE("the register has a column for every field of the record duties") {
  const auto names = cells(first_line(storage::register_csv({}, engine::kSi)));
  for (const std::string want : {"date",
                                 "time",
                                 "yard",
                                 "colony",
                                 "method",
                                 "product",
                                 "lot",
                                 "dose_mg",
                                 "registration_no",
                                 "lot_expiry",
                                 "supplier",
                                 "receipt",
                                 "operator",
                                 "withdrawal_days",
                                 "operator_address",
                                 "reason",
                                 "outcome",
                                 "supers_on",
                                 "brood_boxes",
                                 "passed_over_because",
                                 "struck",
                                 "temperature_tenths_c",
                                 "flight",
                                 "over_label",
                                 "against_label"}) {
    INFO(want);
    CHECK(std::count(names.begin(), names.end(), want) == 1);
  }
}

TEST_CASE("each line of the label that a treatment is against stands in one column") {
  engine::RegisterRow r;
  r.over_label = r.supers_against_label = true;
  r.against_label = {"Given on 1 day this year; no more than 1 allowed."};
  const std::string csv = storage::register_csv({r}, engine::kSi);
  CHECK(csv.find("over the label's most; honey supers on; Given on 1 day this year; no more than "
                 "1 allowed.") != std::string::npos);
  CHECK(r.is_against_label() == !engine::label_breaches(r).empty());
  CHECK(engine::label_breaches(engine::RegisterRow{}).empty());
}

TEST_CASE("a register without rows is its line of names") {
  const std::string csv = storage::register_csv({}, engine::kSi);
  CHECK(after_first_line(csv).empty());
}

TEST_CASE("a withdrawal of no days is written as 0, and left out where nothing was given") {
  engine::RegisterRow given;
  given.withdrawal_days = 0;
  const auto names = cells(first_line(storage::register_csv({}, engine::kSi)));
  const auto at = static_cast<std::size_t>(
      std::find(names.begin(), names.end(), "withdrawal_days") - names.begin());
  for (const bool known : {true, false}) {
    if (!known) given.withdrawal_days.reset();
    const std::string csv = storage::register_csv({given}, engine::kSi);
    const std::string line = after_first_line(csv);
    CHECK(cells(line).at(at) == (known ? "0" : ""));
  }
}

TEST_CASE("a length is called unsure where the clock was changed between its ends") {
  const auto names = cells(first_line(storage::register_csv({}, engine::kSi)));
  const auto at = static_cast<std::size_t>(std::find(names.begin(), names.end(), "clock_unsure") -
                                           names.begin());
  struct Row {
    std::optional<engine::Elapsed> dwell, seal;
    std::string says;
  };
  const engine::Elapsed sure{engine::Ms{150'000}, true}, unsure{engine::Ms{150'000}, false};
  for (const Row& r : {Row{sure, sure, "no"}, Row{{}, {}, "no"}, Row{unsure, sure, "yes"},
                       Row{sure, unsure, "yes"}, Row{{}, unsure, "yes"}}) {
    engine::RegisterRow row;
    row.dwell = r.dwell;
    row.seal = r.seal;
    const std::string csv = storage::register_csv({row}, engine::kSi);
    CHECK(cells(after_first_line(csv)).at(at) == r.says);
  }
}

TEST_CASE("the day's log has a line for every entry") {
  const engine::Farm farm = evening().farm;
  const std::string csv = storage::day_csv(engine::day_rows(farm, {}, engine::kSi));
  CHECK(static_cast<std::size_t>(std::count(csv.begin(), csv.end(), '\n')) == farm.log.size() + 1);
  CHECK(csv.find("\"A3: 5 g dihydrate set, vaporizer 1, lot 24-118\"") != std::string::npos);
  CHECK(csv.find(",yes,tapped the wrong hive,") != std::string::npos);
}

}  // namespace register_csv_test
