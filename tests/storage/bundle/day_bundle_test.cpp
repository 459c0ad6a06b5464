#include "storage/bundle/day_bundle.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "storage/disk/payload_path.h"
#include "storage/journal/events_jsonl.h"
#include "tests/support/payload_fixture.h"

namespace day_bundle_test {

using namespace fixture;

namespace {

std::size_t lines(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

TEST_CASE("a bundle holds the six files, by names every stick takes") {
  const engine::Farm farm = evening().farm;
  const auto files = storage::payload_of_day(farm, journal_of(farm), {});
  std::vector<std::string> names;
  for (const auto& [name, bytes] : files) {
    names.push_back(name);
    CHECK(storage::why_not_writable(name).empty());
    CHECK_FALSE(bytes.empty());
  }
  CHECK(names == std::vector<std::string>{"day.csv", "dictionary.md", "events.jsonl", "keeper.xlsx",
                                          "register.csv", "report.html", "rounds.ics", "stock.csv",
                                          "yards.geojson"});
}

TEST_CASE("a day's bundle holds that day's events, all of the journal without a day") {
  const engine::Farm farm = hostile_evening().farm;
  const auto journal = journal_of(farm);
  struct Row {
    std::string name;
    std::optional<engine::Date> day;
    std::size_t want;
  };
  const Row rows[] = {{"all", {}, journal.size()},
                      {"the evening", date(2026, 8, 14), journal.size() - 1},
                      {"two days later", date(2026, 8, 16), 1},
                      {"no such day", date(2026, 8, 15), 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    const auto files = storage::payload_of_day(farm, journal, r.day);
    CHECK(lines(files.at("events.jsonl")) == r.want);
    CHECK(storage::read_events_jsonl(files.at("events.jsonl")).value().size() == r.want);
  }
}

TEST_CASE("a record's day is that of its own zone") {
  storage::Record r;
  r.at_utc_ms = 1'786'762'800'000;  // 2026-08-15T03:00:00Z
  CHECK(engine::iso_date(storage::local_date(r)) == "2026-08-15");
  r.zone_offset_min = -420;
  CHECK(engine::iso_date(storage::local_date(r)) == "2026-08-14");
}

TEST_CASE("the same farm gives the same bytes, and the report carries the journal's last hash") {
  const engine::Farm farm = evening().farm;
  const auto journal = journal_of(farm);
  const auto files = storage::payload_of_day(farm, journal, date(2026, 8, 14));
  CHECK(files == storage::payload_of_day(farm, journal, date(2026, 8, 14)));
  CHECK(files.at("report.html").find(storage::hex(journal.back().hash)) != std::string::npos);
}

TEST_CASE("what leaves the outfit has no entries, places, notes or addresses, unless asked for") {
  Pen pen = evening();
  engine::StockReceived tin;
  tin.lot = id<engine::LotId>(9);
  tin.product = "oxalic acid";
  tin.code = "L9";
  tin.supplier = "Acid Trade";
  tin.supplier_address = "2 Acid Road";
  tin.amount = engine::Mass{100'000};
  pen.write(tin);
  engine::OtherTreatmentGiven given;
  given.colony = colony(1);
  given.on = date(2026, 8, 15);
  given.product = "thymol";
  given.note = "gate code 4711";
  pen.write(given);
  const engine::Farm farm = pen.farm;
  const auto journal = journal_of(farm);
  const auto everything = [](const storage::PayloadFiles& files) {
    std::string all;
    for (const auto& [name, bytes] : files) all += bytes;
    return all;
  };
  const auto open = storage::payload_for_others(farm, journal, {}, false);
  CHECK(open.size() == 3);
  for (const char* secret : {"4711", "2 Quarry Cottages", "2 Acid Road"}) {
    INFO(secret);
    CHECK(everything(open).find(secret) == std::string::npos);
    const auto with = storage::payload_for_others(farm, journal, {}, true);
    CHECK(everything(with).find(secret) != std::string::npos);
  }
  CHECK(everything(open).find("thymol") != std::string::npos);
}

TEST_CASE("a farm without a single entry has a bundle too") {
  const auto files = storage::payload_of_day({}, {}, {});
  CHECK(files.size() == 9);
  CHECK(files.at("events.jsonl").empty());
  CHECK(files.at("report.html").find("No treatments") != std::string::npos);
}

}  // namespace day_bundle_test
