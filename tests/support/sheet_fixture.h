// tests/support/sheet_fixture.h -- a farm that spreadsheets are read into, as the program does it.
#pragma once
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "engine/farm/queries.h"
#include "storage/disk/random.h"
#include "storage/sheets/spreadsheet.h"

struct SheetFixture {
  engine::Farm farm;
  storage::IdMaker ids{11};
  engine::DeviceId device{ids(1)};
  std::vector<engine::Event> events;

  engine::Result<storage::SheetReading> ask(const std::string& text) {
    using namespace std::chrono;
    return storage::read_spreadsheet(farm, text, year{2026} / 8 / 20);
  }
  // Reads the text and applies its events; the report.
  storage::SheetReport read(const std::string& text) {
    const auto reading = ask(text);
    REQUIRE_MESSAGE(reading.ok(), reading.status().message());
    for (const engine::Body& body : reading.value().events) apply(body);
    return reading.value().report;
  }
  void apply(const engine::Body& body) {
    const engine::Event e{{device, farm.last_seq[device] + 1}, {}, body};
    REQUIRE(engine::why_not(farm, e) == engine::Refusal::None);
    events.push_back(e);
    farm = engine::apply(std::move(farm), e);
  }
  // How many events a second reading of the text would give.
  std::size_t again(const std::string& text) {
    const auto reading = ask(text);
    REQUIRE(reading.ok());
    return reading.value().events.size();
  }
  const engine::Colony& colony(const std::string& name) {
    for (const auto& [id, c] : farm.colonies)
      if (c.name == name) return c;
    FAIL("no colony " << name);
    return farm.colonies.begin()->second;
  }
  const engine::Yard& yard(const std::string& name) {
    const engine::Yard* y = engine::find_yard(farm, name);
    REQUIRE(y != nullptr);
    return *y;
  }
};

// The report's line about one row: "refused: ..." or "added: ...".
inline std::string line_of(const storage::SheetReport& report, int row) {
  constexpr const char* kFates[] = {"added: ", "changed: ", "same: ", "refused: "};
  for (const auto& r : report.rows)
    if (r.row == row) return kFates[static_cast<int>(r.fate)] + r.what;
  return "nothing";
}

inline bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}
