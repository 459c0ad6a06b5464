// tests/support/payload_fixture.h -- invented farms whose bundle is written for other programs.
#pragma once
#include <string>
#include <vector>

#include "storage/bundle/day_bundle.h"
#include "storage/store/event_json.h"
#include "tests/support/register_fixture.h"

namespace fixture {

// A name that a formula, a script, a quote and a folded line would all trip over.
inline const std::string kHostile =
    "=1+1\"'><script>document.title='RAN'</script>,<img src=http://example.invalid/x.png>; naïve "
    "żółw\r\nsecond line";

// The evening with a hostile colony name, units of the screens other than SI, a course to come.
inline Pen hostile_evening() {
  Pen pen = evening(kHostile);
  engine::SetupChanged setup;
  setup.mass_unit = engine::MassUnit::Ounce;
  setup.temperature_unit = engine::TemperatureUnit::Fahrenheit;
  pen.write(setup);
  pen.write(engine::CoursePlanned{
      kCourse, kYard, {date(2026, 8, 21), date(2026, 8, 28), date(2026, 9, 4)}});
  pen.wait(48h);
  pen.write(engine::NoteWritten{kYard, {}, "two days later"});
  return pen;
}

// Forty colonies, each set, covered and opened in three walks: enough for several pages.
inline Pen season() {
  Pen pen;
  set_up(pen);
  for (int n = 8; n <= 40; ++n)
    pen.write(engine::ColonyAdded{colony(n), kYard, "A" + std::to_string(n), 2, false, {}, n, ""});
  for (std::uint8_t w = 1; w <= 3; ++w) {
    engine::WalkOpened open;
    open.walk = id<engine::WalkId>(static_cast<std::uint8_t>(10 + w));
    open.yard = kYard;
    open.conditions.temperature = engine::Temperature{105};
    open.rules = rules();
    for (int n = 1; n <= 40; ++n) open.colonies.push_back(colony(n));
    open.vaporizers = {kVaporizer};
    open.cloths = {kCloth};
    open.operator_name = "Wren Aldous";
    pen.write(open);
    for (std::size_t i = 0; i < 5; ++i)
      pen.write(engine::ProtectionConfirmed{open.walk, static_cast<engine::Protection>(i)});
    for (int n = 1; n <= 40; ++n) {
      pen.write(engine::VaporizerSet{open.walk, colony(n), kVaporizer, {}, kLot, {2000}, 2, false});
      pen.wait(90s);
      pen.write(engine::ColonyCovered{open.walk, colony(n), kCloth});
    }
    pen.wait(600s);
    pen.write(engine::ColonyUncovered{open.walk, colony(40)});
    pen.write(engine::WalkClosed{open.walk});
    pen.wait(5 * 24h);
  }
  return pen;
}

// Names that a page, a table, a calendar, a map, a document, a terminal or a code might trip over.
inline std::vector<std::string> hostile_names() {
  return {
      "<script>document.title='RAN'</script>",
      "</title></style></table><img src=http://example.invalid/x.png onerror=\"document.title=1\">",
      "\"><svg onload=document.title='RAN'>",
      "&lt;script&gt; & &#60;b&#62; <!-- --> <![CDATA[ ]]>",
      "=1+1",
      "'=1+1",
      "+1",
      "-1",
      "@SUM(1)",
      "=HYPERLINK(\"http://example.invalid\",\"open\")",
      "=cmd|' /C x'!A0",
      "\t=1",
      "\r=1",
      "\n=1",
      std::string("\0=1", 3),
      "\uff1d1+1",
      "\"quoted\", with; separators, and\ttabs",
      "two\r\nlines\nand\ra third",
      "END:VEVENT\r\nBEGIN:VEVENT\r\nSUMMARY:not ours",
      "back\\slash \\n \\, \\;",
      "\"}]},\"x\":{\"",
      "\u202eright to left\u202c \u2066isolate",  // an isolate that is never ended
      "\u05d0\u05d1\u05d2 A1 \u0627\u0644\u0646\u062d\u0644",
      "line\u2028separator \u2029 \u0085 next",
      std::string("a NUL \0 inside", 14),
      "controls \x01\x07\x08\x0b\x0c\x1b[31m\x7f",
      ") >> endobj /JavaScript (app.alert(1))",
      "%s%n%d {} {0} $HOME `x` $(x)",
      "\xff\xfe no UTF-8 \xc3",
      "../../etc/passwd",
      std::string(4000, 'x'),
      "many words of it " + std::string(3000, ' ') + "the end",
  };
}

// The farm as the journal gives it back: text that is no UTF-8 does not get into a farm.
inline Pen as_replayed(const Pen& written) {
  Pen pen;
  for (const engine::Entry& e : written.farm.log)
    pen.farm =
        engine::apply(std::move(pen.farm), storage::to_event(storage::to_record(e.event)).value());
  return pen;
}

// A colony of each name in that yard, treated by a product of the name and noted.
inline void name_colonies(Pen& pen, engine::YardId yard, const std::vector<std::string>& names) {
  int n = 100;
  for (const std::string& name : names) {
    const engine::ColonyId bees = colony(n);
    pen.write(engine::ColonyAdded{bees, yard, name, 1, false, engine::Spot{n * 10, 0}, n, name});
    engine::OtherTreatmentGiven given;
    given.colony = bees;
    given.on = date(2026, 8, 10);
    given.method = engine::Method::FormicAcid;
    given.product = given.dose = name;
    pen.write(given);
    pen.write(engine::NoteWritten{yard, bees, name});
    ++n;
  }
}

// The evening, and colonies of such names in a yard of such a name.
inline Pen evening_of_names() {
  Pen pen = hostile_evening();
  const engine::YardId yard = id<engine::YardId>(9);
  pen.write(engine::YardAdded{yard, kHostile + hostile_names().at(21),
                              engine::Place{45'000'000, -120'000'000}, "", kHostile});
  name_colonies(pen, yard, hostile_names());
  return as_replayed(pen);
}

// The plain evening, and colonies whose names a spreadsheet takes for numbers or days, or that only
// UTF-8 can write.
inline Pen evening_of_numbers() {
  Pen pen = evening();
  name_colonies(pen, kOtherYard,
                {"12",    "1.000",  "140.000", "22.2",  "1,5",     ".5",
                 "007",   "1E5",    "3/4",     "12-05", "2026-05", "1.2.3",
                 "1:30",  "50%",    "(5)",     "5-",    "1 000",   "1 1/2",
                 "1'000", "24-118", "5e-3",    "12 g",  "Ähre",    "żółw",
                 "=1",    "-1",     "1-2-3",   "1.5 g", "00",      "12345678901234567890",
                 "naïve", "'7",     "'1.000",  "1."});
  pen.write(engine::StockReceived{id<engine::LotId>(2),
                                  "Oxalic acid dihydrate",
                                  "12.500",
                                  "1.000",
                                  date(2027, 3, 4),
                                  {140'000},
                                  "Fold & Daughters",
                                  "007"});
  return as_replayed(pen);
}

// The journal of that farm: every entry sealed to the one before it.
inline std::vector<storage::Sealed> journal_of(const engine::Farm& farm) {
  std::vector<storage::Sealed> all;
  storage::Hash prev{};
  for (const engine::Entry& e : farm.log) {
    all.push_back(storage::seal(storage::to_record(e.event), prev));
    prev = all.back().hash;
  }
  return all;
}

}  // namespace fixture
