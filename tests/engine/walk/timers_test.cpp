#include "engine/walk/timers.h"

#include "tests/support/evening.h"

namespace timers_test {

using namespace evening;

TEST_CASE("a dwell runs from the setting and is due at its goal") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  struct Row {
    std::string name;
    int second;
    bool too_short, due;
  };
  const Row rows[] = {{"just short", 69, true, false},
                      {"no longer short", 70, false, false},
                      {"not yet due", 99, false, false},
                      {"due", 100, false, true},
                      {"over", 130, false, true}};
  for (const Row& r : rows) {
    INFO(r.name);
    const Timer t = dwells(k.now(), at(r.second)).at(0);
    CHECK(t.too_short() == r.too_short);
    CHECK(t.due() == r.due);
    CHECK(t.left() == Seconds{100 - r.second});
  }
}

TEST_CASE("a clock that is set, or a reboot, does not lose a running timer") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  Stamp set_back = at(55);
  set_back.at -= std::chrono::hours{26};
  CHECK(dwells(k.now(), set_back).at(0).elapsed == Seconds{45});
  Stamp rebooted = at(55);
  rebooted.boot = "boot-2";
  rebooted.since_boot = Ms{7000};
  CHECK(dwells(k.now(), rebooted).at(0).elapsed == Seconds{45});
  CHECK(dwells(k.now(), rebooted).at(0).sure);
  rebooted.at -= std::chrono::hours{26};
  CHECK_FALSE(dwells(k.now(), rebooted).at(0).sure);
}

// A tablet without a battery for its clock begins at some old day after a reboot, until it is set.
TEST_CASE("after a reboot a timer is unsure until its clock proves the order, and never absurd") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  struct Row {
    std::string name;
    Ms off;         // the wall clock against the true one
    Ms since_boot;  // of the new boot, at(55)
    bool sure;
    Ms elapsed;
  };
  const std::chrono::hours year{24 * 365};
  const Row rows[] = {
      {"set right", Ms{0}, Ms{7000}, true, Ms{45'000}},
      {"33 years back", -33 * year, Ms{7000}, false, Ms{7000}},
      {"33 years on: it was back before", 33 * year, Ms{7000}, false, Ms{7000}},
      {"where the last shutdown was, before the setting", Ms{-60'000}, Ms{7000}, false, Ms{7000}},
      {"the same, after as long as it was back", Ms{-40'000}, Ms{30'000}, false, Ms{30'000}},
      {"the same, and the dwell is over by the new boot alone", Ms{-120'000}, Ms{100'000}, false,
       Ms{100'000}},
      {"beyond all years", Ms{std::numeric_limits<std::int64_t>::max() / 2}, Ms{7000}, false,
       Ms{7000}}};
  for (const Row& r : rows) {
    INFO(r.name);
    Stamp now = at(55);
    now.boot = "boot-2";
    now.at += r.off;
    now.since_boot = r.since_boot;
    const Timer t = dwells(k.now(), now).at(0);
    CHECK(t.sure == r.sure);
    CHECK(t.elapsed == r.elapsed);
  }
}

TEST_CASE("a time zone that is set anew moves no timer") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  Stamp abroad = at(55);
  abroad.zone = std::chrono::minutes{330};
  CHECK(dwells(k.now(), abroad).at(0).elapsed == Seconds{45});
  abroad.boot = "boot-2";
  abroad.since_boot = Ms{1000};
  CHECK(dwells(k.now(), abroad).at(0).elapsed == Seconds{45});
  CHECK(dwells(k.now(), abroad).at(0).sure);
}

TEST_CASE("the cloth to take is a free one, else the one that has lain longest") {
  Keeper k = on_a_walk(4, 2);
  CHECK(next_cloth(k.now(), at(5))->cloth == cloth(1));
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  CHECK(next_cloth(k.now(), at(105))->cloth == cloth(2));
  k.does(at(110), set(2));
  k.does(at(200), cover(2, 2));
  const auto next = next_cloth(k.now(), at(300));
  CHECK(next->cloth == cloth(1));
  CHECK(next->seal->colony == colony(1));
  CHECK(next->seal->elapsed == Seconds{200});
}

TEST_CASE("a walk without cloths has none to take") {
  const Keeper k = on_a_walk(1, 0);
  CHECK_FALSE(next_cloth(k.now(), at(5)));
}

TEST_CASE("the next due moment is the soonest of all timers that still run") {
  Keeper k = on_a_walk(2, 2);
  CHECK_FALSE(until_next_due(k.now(), at(5)));
  k.does(at(10), set(1));
  CHECK(until_next_due(k.now(), at(30)) == Ms{70'000});
  k.does(at(100), cover(1, 1));
  k.does(at(110), set(2));
  CHECK(until_next_due(k.now(), at(120)) == Ms{80'000});
  CHECK(until_next_due(k.now(), at(650)) == Ms{50'000});
}

}  // namespace timers_test
