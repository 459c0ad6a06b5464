#include "storage/trust/would_do.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "tests/support/evening.h"

namespace would_do_test {

using namespace evening;

namespace {

Event from_other(std::int64_t seq, Body body) {
  return {{id<DeviceId>(7), seq}, at(90'000), std::move(body)};
}

bool has(const std::vector<std::string>& lines, const std::string& line) {
  return std::find(lines.begin(), lines.end(), line) != lines.end();
}

}  // namespace

TEST_CASE("what is held back is told by what it would do, the worst first") {
  Keeper k = keeper_with(3, 2);
  k.does(at(1000), SetupChanged{.rules = rules()});
  std::vector<Event> held;
  std::int64_t seq = 0;
  for (int n = 1; n <= 3; ++n) {
    OtherTreatmentGiven thymol;
    thymol.colony = colony(n);
    thymol.on = *date_from_iso("2026-08-14");
    thymol.product = "thymol";
    const EntryRef given = k.does(at(2000 + n), thymol);
    held.push_back(from_other(++seq, EntryStruck{given, "wrong"}));
  }
  LabelRules nine = rules();
  nine.per_brood_box = Mass{9000};
  held.push_back(from_other(++seq, SetupChanged{.rules = nine}));
  held.push_back(from_other(++seq, YardLost{.yard = yard()}));
  held.push_back(from_other(++seq, NoteWritten{{}, {}, "hello"}));
  held.push_back(from_other(++seq, EntryStruck{{id<DeviceId>(7), 6}, "of its own"}));
  const auto lines = storage::would_do(k.farm, held);
  REQUIRE(lines.size() == 5);
  CHECK(lines[0] == "offers another dose for a brood box: 1 g dihydrate -> 9 g dihydrate");
  CHECK(lines[1] == "strikes 3 treatments of 2026-08-14");
  CHECK(has(lines, "gives up 1 yard or colony"));
  CHECK(has(lines, "adds 1 note of 2026-08-15"));
  CHECK(has(lines, "holds 2 other entries"));
  CHECK(storage::would_do(k.farm, {}).empty());
}

}  // namespace would_do_test
