#include "ui/commands/notice.h"

#include <doctest/doctest.h>

namespace notice_test {

using namespace ui;

namespace {

engine::Stamp second(int s) { return {engine::Utc{}, {}, "boot", engine::Ms{s * 1000}}; }

const char* const kLine =
    "The journal /home/edda/farm.journal: another program has it open. Close that one first.";

std::unique_ptr<Stage> stage_of(int width, int height) {
  DisplayOptions options;
  options.width_px = width, options.height_px = height, options.diagonal_mm = 256.5F;
  auto display = Display::open_headless(options);
  REQUIRE(display.ok());
  auto stage = Stage::on(std::move(display).value());
  REQUIRE(stage.ok());
  return std::move(stage).value();
}

}  // namespace

TEST_CASE("why the screens cannot open stands on the screen, whole, in both layouts") {
  for (const auto& size : {std::pair{1280, 800}, std::pair{800, 1280}}) {
    INFO(size.first);
    const auto stage = stage_of(size.first, size.second);
    Notice notice(kLine);
    CHECK(notice.turn(*stage, second(1)));
    bool shown = false;
    for (const ShownText& text : notice.touch().texts()) {
      CHECK(!text.cut);
      shown = shown || text.text.find("another program has it open") != std::string::npos;
    }
    CHECK(shown);
  }
}

TEST_CASE("the notice stays until its button is tapped") {
  const auto stage = stage_of(1280, 800);
  Notice notice(kLine);
  REQUIRE(notice.turn(*stage, second(1)));
  REQUIRE(notice.touch().targets().size() == 1);
  const Target quit = notice.touch().targets().front();
  CHECK(quit.label == "Quit");
  stage->input().press(1, 1);  // beside it
  stage->input().release(1, 1);
  CHECK(notice.turn(*stage, second(3)));
  stage->input().press(quit.rect.mid_x(), quit.rect.mid_y());
  CHECK(notice.turn(*stage, second(5)));
  stage->input().release(quit.rect.mid_x(), quit.rect.mid_y());
  CHECK(!notice.turn(*stage, second(6)));
}

TEST_CASE("where a new store may be begun, holding its button does, and a tap does not") {
  for (const auto& size : {std::pair{1280, 800}, std::pair{800, 1280}}) {
    INFO(size.first);
    const auto stage = stage_of(size.first, size.second);
    Notice notice("The store /home/edda/farm.journal: it does not open.", true);
    REQUIRE(notice.turn(*stage, second(1)));
    for (const ShownText& text : notice.touch().texts()) CHECK(!text.cut);
    REQUIRE(notice.touch().targets().size() == 2);
    const Target begin = notice.touch().targets().back();
    CHECK(begin.label == "Begin a new store");
    const auto press = [&](int ms) {
      stage->input().press(begin.rect.mid_x(), begin.rect.mid_y(), ms);
    };
    const auto lift = [&](int ms) {
      stage->input().release(begin.rect.mid_x(), begin.rect.mid_y(), ms);
    };
    const auto turn = [&](int ms) {
      return notice.turn(*stage, {engine::Utc{}, {}, "boot", engine::Ms{ms}});
    };
    press(1050);
    CHECK(turn(1100));
    lift(1200);
    CHECK(turn(1300));
    CHECK(turn(2500));
    press(2550);
    CHECK(turn(2600));
    bool open = true;
    for (int ms = 2700; ms < 5000 && open; ms += 100) open = turn(ms);
    CHECK(!open);
    CHECK(notice.begins_anew());
  }
}

}  // namespace notice_test
