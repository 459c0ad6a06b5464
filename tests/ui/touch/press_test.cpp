#include "ui/touch/press.h"

#include <doctest/doctest.h>

namespace press_test {

using ui::Finger;
using ui::Press;
using ui::Rect;
using ui::Target;
using ui::TouchTime;

namespace {

const Rect kRect{100, 100, 120, 90};  // slop: 30 px, a third of the height
const Rect kOther{240, 100, 120, 90};

// What is shown, a finger and how often "A", "B" (tap) and "H" (hold) counted.
struct Desk {
  std::vector<Target> shown = {{"A", "A", kRect, true, false}, {"B", "B", kOther, true, false}};
  Press press;
  int a = 0, b = 0, h = 0;

  void step(bool down, float x, float y, ui::TouchTime at) {
    press.step({down, x, y}, at, shown);
    for (const Target& target : shown) {
      if (!press.tapped(target.id, target.rect)) continue;
      (target.id == "A" ? a : target.id == "B" ? b : h) += 1;
    }
  }
  void down(std::int64_t at, float x = 160, float y = 145) { step(true, x, y, at); }
  void up(std::int64_t at, float x = 160, float y = 145) { step(false, x, y, at); }
  void tap(std::int64_t at, float x = 160, float y = 145) { down(at, x, y), up(at, x, y); }
};

}  // namespace

TEST_CASE("a press and a lift on the same target count once") {
  Desk d;
  d.down(0);
  CHECK(d.a == 0);
  d.up(60);
  CHECK(d.a == 1);
  d.step(false, 160, 145, 100);
  CHECK(d.a == 1);
}

TEST_CASE("a finger that slides a third of the height still hits, further it does not") {
  struct Row {
    std::string name;
    float x, y;
    int want;
  };
  const Row rows[] = {
      {"29 px below", 160, 219, 1},       {"31 px below", 160, 221, 0},
      {"29 px above", 160, 71, 1},        {"31 px above", 160, 69, 0},
      {"29 px to the left", 71, 145, 1},  {"31 px to the left", 69, 145, 0},
      {"29 px right, on B", 249, 145, 1}, {"31 px right, on B", 251, 145, 0},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Desk d;
    d.down(0);
    d.up(80, r.x, r.y);
    CHECK(d.a == r.want);
    CHECK(d.b == 0);
  }
}

TEST_CASE("a press beside a target and a lift on it is no tap") {
  Desk d;
  d.down(0, 50, 50);
  d.up(50);
  CHECK(d.a == 0);
}

TEST_CASE("two taps within 300 ms count once") {
  struct Row {
    std::string name;
    std::int64_t second;
    int want;
  };
  for (const Row& r : {Row{"299 ms", 299, 1}, Row{"300 ms", 300, 1}, Row{"301 ms", 301, 2}}) {
    INFO(r.name);
    Desk d;
    d.tap(1000);
    d.tap(1000 + r.second);
    CHECK(d.a == r.want);
  }
}

TEST_CASE("a bounce that is then held down long is still a bounce") {
  Desk d;
  d.tap(1000);
  d.down(1100);
  d.up(1900);
  CHECK(d.a == 1);
}

TEST_CASE("two targets may be tapped quickly one after the other") {
  Desk d;
  d.tap(1000);
  d.tap(1120, 300, 145);
  CHECK(d.a == 1);
  CHECK(d.b == 1);
}

TEST_CASE("a bounce does not hit what has come up under the finger") {
  for (const std::int64_t later : {50, 299, 300, 301}) {
    INFO(later);
    Desk d;
    d.tap(1000);
    d.shown = {{"B", "B", {90, 90, 400, 300}, true, false}};  // another screen
    d.tap(1000 + later);
    CHECK(d.b == (later > 300 ? 1 : 0));
  }
}

TEST_CASE("on the new screen, away from the old place, a tap counts at once") {
  Desk d;
  d.tap(1000);
  d.shown = {{"B", "B", {90, 90, 400, 300}, true, false}};
  d.tap(1100, 400, 300);
  CHECK(d.b == 1);
}

TEST_CASE("a hold counts at 1.0 s and not before") {
  struct Row {
    std::string name;
    std::int64_t lift;
    int want;
  };
  for (const Row& r : {Row{"0.99 s", 990, 0}, Row{"0.999 s", 999, 0}, Row{"1.0 s", 1000, 1}}) {
    INFO(r.name);
    Desk d;
    d.shown = {{"H", "H", kRect, true, true}};
    d.down(0);
    d.step(true, 160, 145, 500);
    CHECK(d.press.held("H", kRect) == doctest::Approx(0.5));
    d.up(r.lift);
    CHECK(d.h == r.want);
  }
}

TEST_CASE("a hold counts once, under the finger, and its lift may bounce") {
  Desk d;
  d.shown = {{"H", "H", kRect, true, true}};
  d.down(0);
  d.step(true, 160, 145, 1033);
  CHECK(d.h == 1);
  d.shown = {{"A", "A", kRect, true, false}};
  d.step(true, 160, 145, 1500);
  d.up(2500);
  d.tap(2700);  // the glove bounces after the late lift, on a new screen
  CHECK(d.a == 0);
  d.tap(2801);
  CHECK(d.a == 1);
  CHECK(d.h == 1);
}

TEST_CASE("a hold that slides off is given up, also when it comes back") {
  Desk d;
  d.shown = {{"H", "H", kRect, true, true}};
  d.down(0);
  d.step(true, 160, 300, 400);
  d.step(true, 160, 145, 600);
  d.up(1500);
  CHECK(d.h == 0);
}

TEST_CASE("what is disabled, gone or moved away does not count") {
  struct Row {
    std::string name;
    std::vector<Target> at_press, at_lift;
  };
  const Target on{"A", "A", kRect, true, false};
  const Target off{"A", "A", kRect, false, false};
  const Target moved{"A", "A", {500, 500, 120, 90}, true, false};
  const Row rows[] = {{"disabled", {off}, {off}},
                      {"disabled before the lift", {on}, {off}},
                      {"enabled before the lift", {off}, {on}},
                      {"gone", {on}, {}},
                      {"moved", {on}, {moved}},
                      {"another in its place", {on}, {{"B", "B", kRect, true, false}}}};
  for (const Row& r : rows) {
    INFO(r.name);
    Desk d;
    d.shown = r.at_press;
    d.down(0);
    d.shown = r.at_lift;
    d.up(80);
    CHECK(d.a + d.b == 0);
  }
}

TEST_CASE("a label that counts keeps its target by its id") {
  Desk d;
  d.shown = {{"Lift (0:12)", "A", kRect, true, false}};
  d.down(0);
  d.shown = {{"Lift (0:11)", "A", kRect, true, false}};
  d.up(80);
  CHECK(d.a == 1);
}

TEST_CASE("the upper of two targets gets the press") {
  Desk d;
  d.shown = {{"A", "A", kRect, true, false}, {"B", "B", kRect, true, false}};
  d.tap(0);
  CHECK(d.a == 0);
  CHECK(d.b == 1);
}

TEST_CASE("a finger that is taken back, so that its lift has no place, does nothing") {
  Desk d;
  d.down(0);
  d.up(50, -3e38F, -3e38F);
  CHECK(d.a == 0);
  d.tap(100);
  CHECK(d.a == 1);
}

TEST_CASE("a press is judged by what was on the screen when the finger came down") {
  struct Row {
    std::string name;
    TouchTime at;
    int want_a, want_b;
  };
  const std::vector<Target> before = {{"A", "A", kRect, true, false}};
  const std::vector<Target> after = {{"B", "B", kRect, true, false}};
  const Row rows[] = {{"before B was shown", 1999, 0, 0},
                      {"when B was shown", 2000, 0, 1},
                      {"perhaps before", {1999, 2100}, 0, 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    Desk d;
    d.press.shown(1000, before);
    d.press.shown(2000, after);
    d.shown = after;
    d.step(true, 160, 145, r.at);
    d.step(false, 160, 145, {2200});
    CHECK(d.a == r.want_a);
    CHECK(d.b == r.want_b);
  }
}

}  // namespace press_test
