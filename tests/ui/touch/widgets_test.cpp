// Every sample screen, in both themes and both ways of holding the tablet: large enough, far enough
// apart, readable, nothing cut. The sizes are the house rule of ui/touch/touch.h.
#include "ui/touch/widgets.h"

#include <doctest/doctest.h>

#include "tests/support/rig.h"
#include "tests/support/scenes.h"
#include "ui/touch/faults.h"

namespace widgets_test {

using test::Rig;
using ui::Rect;
using ui::Touch;

TEST_CASE("no sample screen has a fault in either theme, landscape or portrait") {
  for (const test::Panel& panel : {test::landscape(), test::portrait()}) {
    for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme()}) {
      for (const test::Scene& scene : test::scenes()) {
        Rig rig(panel, theme);
        for (const std::int64_t now : {1000, 2000}) {  // both halves of a flash
          rig.now = now;
          rig.show(scene.draw);
          INFO(panel.name << " " << theme.name << " " << scene.name);
          CHECK(rig.touch.texts().size() > 2);
          for (const std::string& fault : ui::faults(rig.touch)) FAIL_CHECK(fault);
        }
      }
    }
  }
}

TEST_CASE("every target stays readable while it is pressed") {
  for (const test::Scene& scene : test::scenes()) {
    Rig rig;
    rig.show(scene.draw);
    for (const ui::Target& target : std::vector<ui::Target>(rig.touch.targets())) {
      rig.press(target.rect.mid_x(), target.rect.mid_y());
      rig.frame();
      INFO(scene.name << " " << target.label);
      CHECK(ui::pale_texts(rig.touch).empty());
      rig.move(0, 0);
      rig.lift();
      rig.now += 1000;
      rig.frame();
    }
  }
}

TEST_CASE("the fault finders find what is wrong") {
  Rig rig;
  rig.show([](Touch& t) {
    (void)ui::button(t, {10, 10, 100, 100}, "A");  // 17 mm wide
    (void)ui::button(t, {120, 10, 200, 80}, "B");  // 13.6 mm high, 10 px from A
    (void)ui::button(t, {400, 10, 200, 100}, "B");
    (void)ui::button(t, {1200, 10, 200, 100}, "C");  // over the right side
    (void)ui::text(t, {10, 300, 60, 24}, "far too many words", {});
  });
  CHECK(ui::small_targets(rig.touch).size() == 2);
  CHECK(ui::tight_gaps(rig.touch).size() == 1);
  CHECK(ui::double_labels(rig.touch).size() == 1);
  CHECK(ui::overflows(rig.touch).size() >= 2);
  CHECK(ui::pale_texts(rig.touch).empty());
}

TEST_CASE("a tap on a button is told once, a disabled one never") {
  Rig rig;
  int on = 0;
  int off = 0;
  rig.show([&](Touch& t) {
    on += ui::button(t, {10, 10, 200, 100}, "on") ? 1 : 0;
    off += ui::button(t, {300, 10, 200, 100}, "off", {.enabled = false}) ? 1 : 0;
  });
  rig.tap("on");
  rig.tap("off");
  CHECK(on == 1);
  CHECK(off == 0);
}

TEST_CASE("a hold button fills, asks to be drawn meanwhile, and counts at one second") {
  Rig rig;
  int struck = 0;
  rig.show([&](Touch& t) { struck += ui::hold_button(t, {10, 10, 300, 120}, "strike") ? 1 : 0; });
  CHECK_FALSE(rig.touch.wake());
  rig.press(100, 60);
  rig.now += 500;
  rig.frame();
  CHECK(rig.touch.wake() == ui::kHoldFrameMs);
  CHECK(struck == 0);
  rig.now += 500;
  rig.frame();
  rig.lift();
  CHECK(struck == 1);
  CHECK_FALSE(rig.touch.wake());
}

TEST_CASE("a dialog hides what lies under it from fingers and eyes") {
  Rig rig;
  int under = 0;
  bool open = false;
  const std::vector<ui::DialogButton> buttons = {{"YES"}, {"NO"}};
  rig.show([&](Touch& t) {
    under += ui::button(t, {10, 10, 1260, 780}, "under") ? 1 : 0;
    if (open) (void)ui::dialog(t, "Sure?", "It cannot be undone.", buttons);
  });
  rig.press(640, 700);  // on `under`, before the dialog comes up
  open = true;
  rig.frame();
  rig.lift();
  rig.now += 1000;
  rig.press(640, 300);
  rig.lift();
  CHECK(under == 0);
  CHECK_FALSE(rig.sees("under"));
  CHECK(rig.touch.targets().size() == 2);
}

TEST_CASE("choice, check row and stepper say what was tapped") {
  Rig rig;
  const std::vector<std::string> flight = {"none", "some", "heavy"};
  int chosen = -1;
  int boxes = 2;
  bool fitted = false;
  rig.show([&](Touch& t) {
    if (const auto c = ui::choice(t, {10, 10, 800, 100}, flight, chosen)) chosen = *c;
    if (ui::check_row(t, {10, 200, 800, 100}, "Respirator", fitted)) fitted = !fitted;
    boxes += ui::stepper(t, {10, 400, 800, 100}, "Boxes", std::to_string(boxes));
  });
  rig.tap("heavy");
  CHECK(chosen == 2);
  rig.tap("Respirator");
  CHECK(fitted);
  rig.tap("Boxes +");
  rig.tap("Boxes +");
  rig.tap("Boxes -");
  CHECK(boxes == 3);
}

TEST_CASE("the flash swaps each whole second, once a second at most") {
  Rig rig;
  bool half = false;
  rig.show([&](Touch& t) { half = ui::flash_half(t); });
  const bool first = half;
  CHECK(rig.touch.wake() == 1000);
  rig.now += 999;
  rig.frame();
  CHECK(half == first);
  CHECK(rig.touch.wake() == 1);
  rig.now += 1;
  rig.frame();
  CHECK(half != first);
}

TEST_CASE("a countdown tells running, due and over apart in words") {
  using std::chrono::seconds;
  struct Row {
    std::string name;
    int left;
    std::string digits, word;
  };
  const Row rows[] = {
      {"an hour", 3600, "1:00:00", "running"}, {"just under", 3599, "59:59", "running"},
      {"last second", 1, "0:01", "running"},   {"zero", 0, "0:00", "DUE NOW"},
      {"in grace", -12, "+0:12", "DUE NOW"},   {"end of grace", -30, "+0:30", "DUE NOW"},
      {"over", -31, "+0:31", "OVER"}};
  for (const Row& r : rows) {
    INFO(r.name);
    Rig rig;
    rig.show([&](Touch& t) {
      ui::countdown(t, {10, 10, 420, 220}, {"Cloth 1", seconds{r.left}, seconds{600}, seconds{30}});
    });
    CHECK(rig.sees(r.digits));
    CHECK(rig.sees(r.word));
    CHECK(rig.touch.wake().has_value() == (r.word == "OVER"));
  }
}

}  // namespace widgets_test
