// Entries stamped by a broken clock go through every file that is written: nothing wraps, no date
// gets more than four digits of a year, and what an inspector reads says that the clock was wrong.
#include <doctest/doctest.h>

#include <limits>
#include <regex>

#include "engine/rounds/due.h"
#include "engine/words/wrong_clocks.h"
#include "storage/answers/due_json.h"
#include "storage/bundle/day_bundle.h"
#include "storage/bundle/rounds_ics.h"
#include "storage/register/register_files.h"
#include "storage/register/tags_pdf.h"
#include "storage/store/event_json.h"
#include "tests/support/payload_fixture.h"

namespace wild_stamps_test {

using namespace fixture;

namespace {

// The evening with one colony set and closed by a clock that says `utc_ms`.
engine::Farm evening_at(std::int64_t utc_ms, int zone_min) {
  Pen pen;
  set_up(pen);
  pen.now.at = engine::Utc{engine::Ms{utc_ms}};
  pen.now.zone = std::chrono::minutes{zone_min};
  open_walk(pen);
  set(pen, 1, 1000);
  pen.write(engine::NoteWritten{kYard, {}, "by a broken clock"});
  return pen.farm;
}

// A year of more than four digits before a month, as "10850-06-21" or "-001-12-31".
bool has_odd_year(const std::string& bytes) {
  static const std::regex kOdd("([0-9]{5,}|-[0-9]{3,4})-(0[1-9]|1[0-2])-[0-3][0-9]");
  return std::regex_search(bytes, kOdd);
}

struct Wild {
  std::string name;
  std::int64_t utc_ms;
  bool right;
};
const Wild kWild[] = {
    {"the year 0 begins", -62'167'219'200'000, false},
    {"1899 ends", -2'208'988'800'001, false},
    {"1970", 0, true},
    {"2200 begins", 7'258'118'400'000, false},
    {"nanoseconds end", 9'223'372'036'854, false},
    {"and later", 9'223'372'036'855, false},
    {"9999 ends", 253'402'300'799'999, false},
    {"the least of all", std::numeric_limits<std::int64_t>::min(), false},
    {"the most of all", std::numeric_limits<std::int64_t>::max() - 86'400'000, false}};

}  // namespace

TEST_CASE("a stamp of a broken clock goes into every file without wrapping") {
  for (const Wild& w : kWild) {
    for (const int zone : {-1439, 0, 840}) {
      INFO(w.name, " ", zone);
      const engine::Farm farm = evening_at(w.utc_ms, zone);
      const engine::Stamp now = farm.log.back()->event.stamp;
      auto files = storage::payload_of_day(farm, journal_of(farm), {});
      files.erase("events.jsonl");  // the entries themselves, as they are
      const engine::Date today = engine::local_date(now);
      files["due.json"] = storage::due_json(farm, engine::due_on(farm, today), today);
      files["ics"] = storage::rounds_ics(farm, now);
      files["wrong"] = engine::words(engine::WrongClock{{}, w.utc_ms, 1});
      for (const auto& file : files) {
        INFO(file.first);
        CHECK_FALSE(has_odd_year(file.second));
      }
      const bool marked = files["report.html"].find("CLOCK WRONG") != std::string::npos;
      CHECK(marked == !w.right);
      const auto rows = engine::register_rows(farm, {});
      const auto head = storage::head_of(farm, {}, "");
      CHECK_FALSE(storage::register_pdf(rows, head).empty());
      CHECK_FALSE(storage::tags_pdf(farm, {}, now).empty());
    }
  }
}

TEST_CASE("an entry stamped outside of 1900-2199 is kept as it is") {
  for (const std::int64_t ms : {-62'167'219'200'000, -2'208'988'800'001, 7'258'118'400'000,
                                9'223'372'036'855, 253'402'300'799'999}) {
    INFO(ms);
    const engine::Event e{{kTabletOfRegister, 1},
                          {engine::Utc{engine::Ms{ms}}, {}, "b", {}},
                          engine::NoteWritten{{}, {}, "n"}};
    const auto again = storage::to_event(storage::to_record(e));
    REQUIRE(again.ok());
    CHECK(again.value().stamp == e.stamp);
  }
}

}  // namespace wild_stamps_test
