// A finger, the real input queue and press code, and a loop that is sometimes busy: each touch must
// count by its own time, not by that of the frame that hears of it.
#include <SDL.h>
#include <doctest/doctest.h>
#include <imgui.h>

#include <algorithm>
#include <deque>
#include <string>
#include <vector>

#include "tests/support/rig.h"
#include "ui/platform/input.h"
#include "ui/touch/widgets.h"

namespace late_touch_test {

namespace {

struct FingerEvent {
  std::int64_t at_ms = 0;
  Uint32 type = 0;
  SDL_FingerID finger = 0;
  float x = 0, y = 0;  // px
};

// The program's loop over a virtual clock: hear, build, show, sleep. A tap on the step takes
// `commit_ms`, as a slow disk does, and the next step stands in its place.
class Loop {
 public:
  explicit Loop(bool kernel_tells) : kernel_tells_(kernel_tells) {
    input_.set_size(1280, 800);
    rig_.now = 0;
    rig_.show([this](ui::Touch& t) { draw(t); });
    rig_.touch.shown(0);
  }

  void finger(std::int64_t from_ms, std::int64_t to_ms, SDL_FingerID id, float x = 300,
              float y = 300) {
    for (const auto& h : {FingerEvent{from_ms, SDL_FINGERDOWN, id, x, y},
                          FingerEvent{to_ms, SDL_FINGERUP, id, x, y}})
      events_.insert(std::upper_bound(events_.begin(), events_.end(), h,
                                      [](auto& a, auto& b) { return a.at_ms < b.at_ms; }),
                     h);
  }

  void run_until(std::int64_t end_ms) {
    while (clock_ < end_ms) turn();
  }

  std::int64_t commit_ms = 0;                // how long a step takes to be made durable
  std::int64_t stall_at = -1, stall_ms = 0;  // once, from then on, nobody listens for so long
  int steps = 0, holds = 0, others = 0;

 private:
  void draw(ui::Touch& t) {
    const std::string step = "step " + std::to_string(steps);
    if (ui::action_button(t, {100, 100, 400, 400}, step)) ++steps, clock_ += commit_ms;
    if (ui::hold_button(t, {600, 100, 200, 200}, "hold")) ++holds;
    if (ui::button(t, {900, 100, 200, 200}, "other")) ++others;
  }

  void turn() {
    const std::int64_t heard = clock_;
    for (; !events_.empty() && events_.front().at_ms <= heard; events_.pop_front())
      feed(events_.front(), heard);
    input_.run(ImGui::GetIO(), 0.03, [&](const std::optional<ui::EventTime>& at) {
      rig_.frame_at(at ? ui::TouchTime{at->earliest_ms, at->latest_ms} : ui::TouchTime{heard});
    });
    input_.set_rests(rig_.touch.finger_rests());
    rig_.touch.shown(clock_);
    deaf_since_ = heard;
    if (stall_at >= 0 && clock_ >= stall_at) clock_ += stall_ms, stall_at = -1;
    sleep();
  }

  void feed(const FingerEvent& h, std::int64_t heard) {
    SDL_Event e{};
    e.type = h.type;
    e.tfinger.fingerId = h.finger;
    e.tfinger.x = h.x / 1280, e.tfinger.y = h.y / 800;
    input_.feed(
        e, kernel_tells_ ? ui::EventTime{h.at_ms, h.at_ms} : ui::EventTime{deaf_since_, heard});
  }

  // Until something happens, a picture of the filling bar at the latest. Whoever slept knows when
  // he was woken.
  void sleep() {
    if (!events_.empty() && events_.front().at_ms <= clock_) return;
    clock_ += 33;
    if (!events_.empty()) clock_ = std::min(clock_, events_.front().at_ms);
    deaf_since_ = clock_;
  }

  bool kernel_tells_;
  test::Rig rig_;
  ui::Input input_;
  std::deque<FingerEvent> events_;
  std::int64_t clock_ = 0, deaf_since_ = 0;
};

const bool kTold[] = {true, false};  // the kernel's times are known, or only when nobody listened

}  // namespace

TEST_CASE("a commit of 350 ms lets no bounce of the tap record the next step") {
  for (const bool told : kTold) {
    for (const std::int64_t bounce : {60, 150, 290}) {
      INFO(told, " ", bounce);
      Loop loop(told);
      loop.commit_ms = 350;
      loop.finger(1000, 1060, 1);
      loop.finger(1060 + bounce, 1060 + bounce + 30, 2);
      loop.run_until(3000);
      CHECK(loop.steps == 1);
    }
  }
}

TEST_CASE("a tap made while the old step was still shown does not record the next one") {
  for (const bool told : kTold) {
    INFO(told);
    Loop loop(told);
    loop.commit_ms = 900;
    loop.finger(1000, 1060, 1);
    loop.finger(1500, 1560, 2);  // no bounce: 440 ms after the lift
    loop.run_until(3000);
    CHECK(loop.steps == 1);
    loop.finger(3100, 3160, 3);
    loop.run_until(5000);
    CHECK(loop.steps == 2);
  }
}

TEST_CASE("taps on what stays where it is count, however late they are heard") {
  Loop loop(true);
  loop.stall_at = 900, loop.stall_ms = 3000;
  loop.finger(1000, 1060, 1, 1000, 200);
  loop.finger(1500, 1560, 2, 1000, 200);
  loop.run_until(6000);
  CHECK(loop.others == 2);
}

TEST_CASE("a hold counts by how long the finger was down, not by how late its frame came") {
  struct Row {
    std::string name;
    std::int64_t down_ms;
    int want_told, want_untold;
  };
  // Where nobody knows when the finger was lifted, it is not taken for a hold.
  const Row rows[] = {{"half a second, heard after 1.5 s", 500, 0, 0},
                      {"just too short", 990, 0, 0},
                      {"long enough", 1100, 1, 0}};
  for (const Row& r : rows) {
    for (const bool told : kTold) {
      INFO(r.name, " ", told);
      Loop loop(told);
      loop.stall_at = 1010, loop.stall_ms = 1500;
      loop.finger(1000, 1000 + r.down_ms, 1, 700, 200);
      loop.run_until(4000);
      CHECK(loop.holds == (told ? r.want_told : r.want_untold));
    }
  }
}

TEST_CASE("a hold with nothing in its way counts once, whether or not the kernel tells") {
  for (const bool told : kTold) {
    INFO(told);
    Loop loop(told);
    loop.finger(1000, 2200, 1, 700, 200);
    loop.run_until(4000);
    CHECK(loop.holds == 1);
  }
}

TEST_CASE("a thumb that rests does not make the screen deaf, and its lift is no tap") {
  struct Row {
    std::string name;
    float x, y;
    std::int64_t since_ms;
  };
  const Row rows[] = {{"on nothing, just now", 1240, 780, 3900},
                      {"on nothing, long since", 1240, 780, 1000},
                      {"on a button, long since", 1000, 200, 1000},
                      {"on a hold, long since", 700, 200, 1000}};
  for (const Row& r : rows) {
    for (const bool told : kTold) {
      INFO(r.name, " ", told);
      Loop loop(told);
      loop.finger(r.since_ms, 9000, 1, r.x, r.y);
      for (int n = 0; n < 3; ++n) loop.finger(4000 + n * 500, 4060 + n * 500, 2 + n);
      loop.run_until(10'000);
      CHECK(loop.steps == 3);
      CHECK(loop.others == 0);
    }
  }
}

TEST_CASE("a second finger beside the first is not heard: a glove's knuckle") {
  for (const bool told : kTold) {
    INFO(told);
    Loop loop(told);
    loop.finger(1000, 1100, 1);
    loop.finger(1030, 1080, 2, 1000, 200);
    loop.run_until(2000);
    CHECK(loop.steps == 1);
    CHECK(loop.others == 0);
  }
}

TEST_CASE("a finger that is taken back by the window does nothing") {
  test::Rig rig;
  ui::Input input;
  input.set_size(1280, 800);
  int taps = 0;
  rig.show([&](ui::Touch& t) { taps += ui::button(t, {100, 100, 400, 400}, "step") ? 1 : 0; });
  const auto run = [&] {
    rig.now += 50;
    input.run(ImGui::GetIO(), 0.03, [&](const auto&) { rig.frame(); });
  };
  input.press(300, 300);
  run();
  SDL_Event away{};
  away.type = SDL_WINDOWEVENT;
  away.window.event = SDL_WINDOWEVENT_FOCUS_LOST;
  input.feed(away);
  run();
  CHECK(taps == 0);
}

}  // namespace late_touch_test
