// The kernel's multi-touch protocol B, by its document "Multi-touch (MT) Protocol" (section
// "Protocol Example B"): slot, tracking id, tracking id -1 for a lift.
#include "ui/platform/touch_times.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace touch_times_test {

namespace {

input_event event(std::uint16_t type, std::uint16_t code, std::int32_t value, std::int64_t ms) {
  input_event e{};
  e.input_event_sec = ms / 1000;
  e.input_event_usec = ms % 1000 * 1000;
  e.type = type;
  e.code = code;
  e.value = value;
  return e;
}

void feed(ui::TouchTimes& times, ui::TouchSlots& slots, const std::vector<input_event>& events) {
  for (const input_event& e : events)
    if (const auto change = slots.take(e)) times.add(*change);
}

}  // namespace

TEST_CASE("two fingers of the kernel's example keep their own times, each told once") {
  ui::TouchTimes times;
  ui::TouchSlots slots;
  feed(times, slots,
       {event(EV_ABS, ABS_MT_SLOT, 0, 1000), event(EV_ABS, ABS_MT_TRACKING_ID, 45, 1000),
        event(EV_ABS, ABS_MT_POSITION_X, 300, 1000), event(EV_ABS, ABS_MT_SLOT, 1, 1250),
        event(EV_ABS, ABS_MT_TRACKING_ID, 46, 1250), event(EV_SYN, SYN_REPORT, 0, 1250),
        event(EV_ABS, ABS_MT_SLOT, 0, 1300), event(EV_ABS, ABS_MT_TRACKING_ID, -1, 1300),
        event(EV_ABS, ABS_MT_SLOT, 1, 1400), event(EV_ABS, ABS_MT_TRACKING_ID, -1, 1400)});
  CHECK(times.take(46, true) == 1250);
  CHECK(times.take(45, true) == 1000);
  CHECK(times.take(45, false) == 1300);
  CHECK(times.take(46, false) == 1400);
  CHECK_FALSE(times.take(45, true));
}

TEST_CASE("what the kernel dropped is not known") {
  ui::TouchTimes times;
  ui::TouchSlots slots;
  feed(times, slots,
       {event(EV_ABS, ABS_MT_TRACKING_ID, 45, 1000), event(EV_SYN, SYN_DROPPED, 0, 1100),
        event(EV_ABS, ABS_MT_TRACKING_ID, -1, 1300)});
  CHECK(times.take(45, true) == 1000);
  CHECK_FALSE(times.take(45, false));
}

TEST_CASE("nonsense takes no memory") {
  ui::TouchTimes times;
  ui::TouchSlots slots;
  for (int n = 0; n < 10'000; ++n)
    feed(times, slots,
         {event(EV_ABS, ABS_MT_SLOT, n - 5000, 0), event(EV_ABS, ABS_MT_TRACKING_ID, n, n)});
  CHECK(times.take(5063, true) == 5063);
  CHECK_FALSE(times.take(5064, true));  // no panel has so many slots
  feed(times, slots, {event(EV_ABS, ABS_MT_SLOT, 0, 0)});
  for (int n = 0; n < 100; ++n) feed(times, slots, {event(EV_ABS, ABS_MT_TRACKING_ID, n, n)});
  CHECK_FALSE(times.take(20, true));  // pushed out by the later ones
  CHECK(times.take(99, true) == 99);
}

}  // namespace touch_times_test
