// tests/storage/payload_fixture.h -- invented farms whose bundle is written for other programs.
#pragma once
#include <string>
#include <vector>

#include "storage/day_bundle.h"
#include "storage/event_json.h"
#include "tests/engine/register_fixture.h"

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
