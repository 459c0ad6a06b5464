#include "ui/platform/input.h"

#include <SDL.h>
#include <doctest/doctest.h>

#include <optional>
#include <string>
#include <vector>

#include "tests/support/desk.h"

namespace input_test {

namespace {

using test::Desk;

SDL_Event finger(Uint32 type, SDL_FingerID id, float x, float y, Uint32 at_ms = 0) {
  SDL_Event e{};
  e.type = type;
  e.tfinger.fingerId = id;
  e.tfinger.x = x;
  e.tfinger.y = y;
  e.tfinger.timestamp = at_ms;
  e.tfinger.windowID = 0;  // as on KMSDRM
  return e;
}

SDL_Event mouse(Uint32 type, Uint32 which, int x, int y, Uint8 button = SDL_BUTTON_LEFT) {
  SDL_Event e{};
  e.type = type;
  e.button.which = which;
  e.button.button = button;
  e.button.x = x;
  e.button.y = y;
  return e;
}

SDL_Event window(Uint8 what) {
  SDL_Event e{};
  e.type = SDL_WINDOWEVENT;
  e.window.event = what;
  return e;
}

SDL_Event key(SDL_Keycode code) {
  SDL_Event e{};
  e.type = SDL_KEYDOWN;
  e.key.keysym.sym = code;
  return e;
}

SDL_Event text(const char* utf8) {
  SDL_Event e{};
  e.type = SDL_TEXTINPUT;
  SDL_strlcpy(e.text.text, utf8, sizeof e.text.text);
  return e;
}

// Two buttons, 100 x 100 at (0, 0) and at (200, 0), on a screen of 400 x 200.
struct Buttons {
  Desk desk{400, 200};
  int left = 0, right = 0;
  bool hovered = false;

  Buttons() { run(); }
  void feed(const std::vector<SDL_Event>& events) {
    for (const SDL_Event& e : events) desk.input.feed(e, {e.common.timestamp, e.common.timestamp});
  }
  int run() {
    return desk.run([this] {
      ImGui::SetCursorPos({0, 0});
      if (ImGui::Button("left", {100, 100})) ++left;
      hovered = ImGui::IsItemHovered();
      ImGui::SetCursorPos({200, 0});
      if (ImGui::Button("right", {100, 100})) ++right;
    });
  }
};

}  // namespace

TEST_CASE("five finger taps in one batch are five taps") {
  Buttons b;
  for (int i = 0; i < 5; ++i)
    b.feed({finger(SDL_FINGERDOWN, i, 0.1f, 0.2f), finger(SDL_FINGERUP, i, 0.1f, 0.2f)});
  CHECK(b.run() == 11);
  CHECK(b.left == 5);
  CHECK(b.right == 0);
}

TEST_CASE("five taps through SDL's own queue are five taps") {
  Buttons b;
  SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
  for (int i = 0; i < 5; ++i)
    for (SDL_Event e : {finger(SDL_FINGERDOWN, 1, 0.6f, 0.2f), finger(SDL_FINGERUP, 1, 0.6f, 0.2f)})
      REQUIRE(SDL_PushEvent(&e) == 1);
  CHECK(b.desk.input.poll());
  CHECK_FALSE(b.desk.input.poll());
  b.run();
  CHECK(b.right == 5);
}

TEST_CASE("taps that jump between two buttons reach the right one") {
  Buttons b;
  for (int i = 0; i < 4; ++i) {
    const float x = i % 2 == 0 ? 50.0f : 250.0f;
    b.desk.input.press(x, 50);
    b.desk.input.release(x, 50);
  }
  b.run();
  CHECK(b.left == 2);
  CHECK(b.right == 2);
}

TEST_CASE("one finger after the other through synthetic touches, mouse and panel alike") {
  Buttons b;
  b.desk.input.press(50, 50);
  b.desk.input.release(50, 50);
  b.feed({mouse(SDL_MOUSEBUTTONDOWN, 0, 50, 50), mouse(SDL_MOUSEBUTTONUP, 0, 50, 50)});
  b.feed({finger(SDL_FINGERDOWN, 9, 0.1f, 0.2f), finger(SDL_FINGERUP, 9, 0.1f, 0.2f)});
  b.run();
  CHECK(b.left == 3);
}

TEST_CASE("no button stays lit after the finger has left") {
  Buttons b;
  b.feed({finger(SDL_FINGERDOWN, 1, 0.1f, 0.2f)});
  b.run();
  CHECK(b.hovered);
  CHECK(b.desk.input.busy());
  b.feed({finger(SDL_FINGERUP, 1, 0.1f, 0.2f)});
  b.run();
  CHECK_FALSE(b.hovered);
  CHECK_FALSE(b.desk.input.busy());
}

TEST_CASE("a finger that slides ends where it lifts") {
  struct Row {
    std::string name;
    float lift_x;
    int want;
  };
  // The default button of ImGui; the slop for gloves is the widgets' own business.
  const Row rows[] = {{"a bit aside, on the button", 0.2f, 1}, {"off the button", 0.4f, 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    Buttons b;
    b.feed({finger(SDL_FINGERDOWN, 1, 0.1f, 0.2f), finger(SDL_FINGERMOTION, 1, r.lift_x, 0.2f),
            finger(SDL_FINGERUP, 1, r.lift_x, 0.2f)});
    b.run();
    CHECK(b.left == r.want);
  }
}

TEST_CASE("the position of a move between press and lift is seen") {
  Buttons b;
  b.desk.input.press(50, 50);
  b.desk.input.move(60, 70);
  b.run();
  CHECK(ImGui::GetIO().MousePos.x == 60);
  CHECK(ImGui::GetIO().MousePos.y == 70);
  CHECK(ImGui::GetIO().MouseDown[0]);
}

TEST_CASE("a second finger is not heard before the first has lifted") {
  Buttons b;
  b.feed({finger(SDL_FINGERDOWN, 1, 0.1f, 0.2f), finger(SDL_FINGERDOWN, 2, 0.6f, 0.2f),
          finger(SDL_FINGERUP, 2, 0.6f, 0.2f), finger(SDL_FINGERUP, 1, 0.1f, 0.2f)});
  b.run();
  CHECK(b.left == 1);
  CHECK(b.right == 0);
  b.feed({finger(SDL_FINGERDOWN, 2, 0.6f, 0.2f), finger(SDL_FINGERUP, 2, 0.6f, 0.2f)});
  b.run();
  CHECK(b.right == 1);
}

TEST_CASE("a finger whose lift was lost does not deafen the panel") {
  struct Row {
    std::string name;
    SDL_FingerID next;
    Uint32 at_ms;
    int want;
  };
  const Row rows[] = {{"the same finger comes down again", 1, 1100, 1},
                      {"another one, soon", 2, 2500, 0},
                      {"another one, later than a hold needs", 2, 2501, 1}};
  for (const Row& r : rows) {
    INFO(r.name);
    Buttons b;
    b.feed({finger(SDL_FINGERDOWN, 1, 0.1f, 0.2f, 1000),
            finger(SDL_FINGERDOWN, r.next, 0.6f, 0.2f, r.at_ms),
            finger(SDL_FINGERUP, r.next, 0.6f, 0.2f, r.at_ms + 50)});
    b.run();
    CHECK(b.right == r.want);
    CHECK(b.left == 0);
  }
}

TEST_CASE("a finger that does nothing where it is gives way at once") {
  Buttons b;
  b.feed({finger(SDL_FINGERDOWN, 1, 0.9f, 0.9f, 1000)});
  b.run();
  b.desk.input.set_rests(true);
  b.feed({finger(SDL_FINGERDOWN, 2, 0.6f, 0.2f, 1100),
          finger(SDL_FINGERMOTION, 1, 0.1f, 0.2f, 1120), finger(SDL_FINGERUP, 2, 0.6f, 0.2f, 1150),
          finger(SDL_FINGERUP, 1, 0.1f, 0.2f, 1200)});
  b.run();
  CHECK(b.right == 1);
  CHECK(b.left == 0);
}

TEST_CASE("a press and a lift tell their frames when they were, the other frames nothing") {
  struct Row {
    std::string name;
    std::optional<std::int64_t> kernel;
    std::int64_t earliest, latest;
  };
  const Row rows[] = {{"known", 1234, 1234, 1234},
                      {"not known", std::nullopt, 1000, 2000},
                      {"known of a finger long gone", -60'000, 1000, 2000}};
  for (const Row& r : rows) {
    INFO(r.name);
    Desk desk(100, 100);
    SDL_FlushEvents(SDL_FIRSTEVENT, SDL_LASTEVENT);
    SDL_Event down = finger(SDL_FINGERDOWN, 7, 0.1f, 0.1f);
    REQUIRE(SDL_PushEvent(&down) == 1);
    desk.input.poll({{1000, 2000}, [&](std::int64_t id, bool is_down) {
                       CHECK((id == 7 && is_down));
                       return r.kernel;
                     }});
    std::vector<std::optional<ui::EventTime>> told;
    desk.input.run(ImGui::GetIO(), 0.1, [&](const auto& at) {
      told.push_back(at);
      desk.build([] {});
    });
    REQUIRE(told.size() == 2);
    REQUIRE(told[0]);
    CHECK(told[0]->earliest_ms == r.earliest);
    CHECK(told[0]->latest_ms == r.latest);
    CHECK_FALSE(told[1]);
  }
}

TEST_CASE("a window that goes away takes the press back") {
  Buttons b;
  b.feed({mouse(SDL_MOUSEBUTTONDOWN, 0, 50, 50), window(SDL_WINDOWEVENT_FOCUS_LOST),
          mouse(SDL_MOUSEBUTTONUP, 0, 50, 50)});
  b.run();
  CHECK(b.left == 0);
  CHECK_FALSE(b.desk.input.busy());
}

TEST_CASE("mice made of touches and other buttons are not heard") {
  struct Row {
    std::string name;
    Uint32 which;
    Uint8 button;
    int want;
  };
  const Row rows[] = {{"a mouse", 0, SDL_BUTTON_LEFT, 1},
                      {"SDL's mouse made of a touch", SDL_TOUCH_MOUSEID, SDL_BUTTON_LEFT, 0},
                      {"the right button", 0, SDL_BUTTON_RIGHT, 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    Buttons b;
    b.feed({mouse(SDL_MOUSEBUTTONDOWN, r.which, 50, 50, r.button),
            mouse(SDL_MOUSEBUTTONUP, r.which, 50, 50, r.button)});
    b.run();
    CHECK(b.left == r.want);
  }
}

TEST_CASE("what the window says is told once") {
  ui::Input input;
  CHECK(input.take_told().nothing());
  SDL_Event quit{}, reset{};
  quit.type = SDL_QUIT;
  reset.type = SDL_RENDER_DEVICE_RESET;
  for (const SDL_Event& e :
       {quit, reset, window(SDL_WINDOWEVENT_SIZE_CHANGED), window(SDL_WINDOWEVENT_EXPOSED)})
    input.feed(e);
  const ui::WindowEvents told = input.take_told();
  CHECK((told.quit && told.reset && told.resized && told.redraw));
  CHECK(input.take_told().nothing());
}

TEST_CASE("what is typed or scanned comes as UTF-8 with its control characters") {
  ui::Input input;
  for (const SDL_Event& e : {text("Č"), text("7"), key(SDLK_7), key(SDLK_BACKSPACE),
                             key(SDLK_RETURN), key(SDLK_TAB), key(SDLK_ESCAPE)})
    input.feed(e);
  CHECK(input.take_told().typed == "Č7\b\n\t\x1b");
}

TEST_CASE("an idle hour is a tenth of a second for ImGui, and only in the first frame") {
  Desk desk(100, 100);
  std::vector<float> steps;
  desk.input.press(5, 5);
  desk.input.run(ImGui::GetIO(), 3600, [&](const auto&) {
    steps.push_back(ImGui::GetIO().DeltaTime);
    desk.build([] {});
  });
  CHECK(steps == std::vector<float>{0.1f, 0.001f});
}

}  // namespace input_test
