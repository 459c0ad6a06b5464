#include "ui/platform/display.h"

#include <doctest/doctest.h>
#include <stb/stb_image.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <memory>
#include <random>
#include <string>

#include "tests/support/desk.h"
#include "tests/support/moving_scene.h"
#include "ui/platform/dirty_area.h"

namespace display_test {

namespace {

using test::Desk;
using test::MovingScene;

// The pixels after drawing `frame` from nothing.
ui::Picture drawn_in_full(ui::Display& display, const ImDrawData& frame) {
  display.redraw_all();
  const ui::DrawStats stats = display.draw(frame);
  CHECK(stats.share == doctest::Approx(1.0));
  return display.shown().value();
}

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

struct Size {
  std::string name;
  int width, height;
};

}  // namespace

TEST_CASE("drawing the changed boxes gives the same pixels as drawing all") {
  const Size sizes[] = {{"landscape", 640, 400}, {"portrait", 400, 640}};
  for (const Size& s : sizes) {
    INFO(s.name);
    Desk desk(s.width, s.height);
    MovingScene scene(11, s.width, s.height, desk.fonts());
    int partial = 0;
    for (int n = 0; n < 150; ++n) {
      INFO("frame " << n);
      scene.change();
      const ImDrawData& frame = desk.build([&] { scene.draw(); });
      partial += desk.display().draw(frame).share < 0.99 ? 1 : 0;
      const ui::Picture stepwise = desk.display().shown().value();
      REQUIRE(stepwise == drawn_in_full(desk.display(), frame));
    }
    CHECK(partial > 75);  // or this would prove nothing
  }
}

TEST_CASE("many partial frames in a row leave nothing behind") {
  Desk desk(640, 400);
  MovingScene scene(5, 640, 400, desk.fonts());
  const ImDrawData* frame = nullptr;
  for (int n = 0; n < 300; ++n) {
    scene.change();
    frame = &desk.build([&] { scene.draw(); });
    desk.display().draw(*frame);
  }
  const ui::Picture stepwise = desk.display().shown().value();
  CHECK(stepwise == drawn_in_full(desk.display(), *frame));
}

TEST_CASE("an equal frame is not drawn, until the picture is lost") {
  Desk desk(320, 200);
  const auto screen = [] { ImGui::Text("B3"); };
  desk.build(screen);  // ImGui settles its windows in the first frames
  desk.build(screen);
  CHECK_FALSE(desk.display().draw(desk.build(screen)).skipped);
  CHECK(desk.display().draw(desk.build(screen)).skipped);
  desk.display().redraw_all();
  CHECK_FALSE(desk.display().draw(desk.build(screen)).skipped);
  desk.display().set_background(IM_COL32(0, 0, 0, 255));
  CHECK_FALSE(desk.display().draw(desk.build(screen)).skipped);
  CHECK(desk.display().draw(desk.build(screen)).skipped);
}

TEST_CASE("a ticking clock draws a small part of the screen only") {
  Desk desk(1280, 800);
  int second = 0;
  const auto screen = [&] {
    ImGui::PushFont(desk.fonts().clock);
    ImGui::Text("%d:%02d", second / 60, second % 60);
    ImGui::PopFont();
    for (int i = 0; i < 4; ++i) ImGui::Button(("DONE " + std::to_string(i)).c_str(), {900, 120});
  };
  for (second = 58; second < 62; ++second) desk.display().draw(desk.build(screen));
  const ui::DrawStats stats = desk.display().draw(desk.build(screen));
  CHECK_FALSE(stats.skipped);
  CHECK(stats.share < 0.05);
}

TEST_CASE("a page with more corners than 16-bit indices count is drawn whole") {
  Desk desk(640, 400);
  const auto screen = [](int small) {
    ImDrawList* list = ImGui::GetWindowDrawList();
    for (int n = 0; n < small; ++n) {
      const float x = static_cast<float>(n % 160) * 4, y = static_cast<float>(n / 160 % 80) * 4;
      list->AddRectFilled({x, y}, {x + 3, y + 3}, IM_COL32(0, 0, n % 251, 255));
    }
    list->AddRectFilled({100, 350}, {600, 390}, IM_COL32(255, 0, 0, 255));
  };
  // 40,000 boxes have 160,000 corners. What the last of them cover lies within the first.
  const ImDrawData& frame = desk.build([&] { screen(40'000); });
  CHECK(frame.TotalVtxCount > 160'000);
  desk.display().draw(frame);
  const ui::Picture p = desk.display().shown().value();
  const auto pixel = [&](int x, int y) {
    const auto at = p.rgba.begin() + (y * p.width_px + x) * 4;
    return std::vector<std::uint8_t>(at, at + 3);
  };
  CHECK(pixel(350, 370) == std::vector<std::uint8_t>{255, 0, 0});
  // The box that was drawn last at (8, 8): 322 and 3 times 160 * 80 more.
  CHECK(pixel(9, 9) == std::vector<std::uint8_t>{0, 0, 38'722 % 251});
  // A change of one box alone is found, as in a small frame.
  const ui::DrawStats stats = desk.display().draw(desk.build([&] {
    screen(40'000);
    ImGui::GetWindowDrawList()->AddRectFilled({10, 340}, {20, 345}, IM_COL32(0, 255, 0, 255));
  }));
  CHECK_FALSE(stats.skipped);
  CHECK(stats.share < 0.05);
}

TEST_CASE("a frame without a background is drawn on the one that was set") {
  Desk desk(64, 48);
  desk.display().set_background(IM_COL32(10, 20, 30, 255));
  ImGui::NewFrame();
  ImGui::Render();
  desk.display().draw(*ImGui::GetDrawData());
  const ui::Picture p = desk.display().shown().value();
  CHECK(p.width_px == 64);
  CHECK(p.height_px == 48);
  CHECK(std::vector<std::uint8_t>(p.rgba.end() - 4, p.rgba.end()) ==
        std::vector<std::uint8_t>{10, 20, 30, 255});
}

TEST_CASE("a PNG holds the pixels that are shown, and the same bytes in every run") {
  std::string first;
  for (int run = 0; run < 2; ++run) {
    Desk desk(320, 200);
    MovingScene scene(3, 320, 200, desk.fonts());
    const ImDrawData& frame = desk.build([&] { scene.draw(); });
    const std::string path = "display_test_" + std::to_string(run) + ".png";
    REQUIRE(desk.display().save_png(frame, path).ok());
    int width = 0, height = 0, channels = 0;
    const std::unique_ptr<unsigned char, void (*)(void*)> read(
        stbi_load(path.c_str(), &width, &height, &channels, 4), stbi_image_free);
    REQUIRE(read != nullptr);
    const ui::Picture shown = desk.display().shown().value();
    CHECK(ui::Picture{width, height, {read.get(), read.get() + width * height * 4}} == shown);
    if (run == 0) first = bytes_of(path);
    CHECK(bytes_of(path) == first);
    std::remove(path.c_str());
  }
}

TEST_CASE("a PNG that cannot be written is a failure with the path in it") {
  Desk desk(32, 32);
  const ImDrawData& frame = desk.build([] {});
  const engine::Status s = desk.display().save_png(frame, "no/such/folder/a.png");
  CHECK_FALSE(s.ok());
  CHECK(s.message().find("no/such/folder/a.png") != std::string::npos);
}

TEST_CASE("the hash of a frame is the same in two contexts and another for another text") {
  std::uint64_t hashes[3] = {};
  const char* texts[3] = {"B3", "B3", "B4"};
  for (int i = 0; i < 3; ++i) {
    Desk desk(320, 200);
    const auto screen = [&] { ImGui::Button(texts[i], {100, 80}); };
    desk.build(screen);
    const ImDrawData& frame = desk.build(screen);
    // The texture is where this run's memory put it; the rest is the frame.
    for (int n = 0; n < frame.CmdListsCount; ++n)
      for (ImDrawCmd& c : frame.CmdLists[n]->CmdBuffer) c.TextureId = nullptr;
    hashes[i] = ui::hash_of(frame);
  }
  CHECK(hashes[0] == hashes[1]);
  CHECK(hashes[0] != hashes[2]);
}

TEST_CASE("pixels a millimetre come from the best thing known") {
  struct Row {
    std::string name;
    ui::DisplayOptions options;
    std::optional<float> dpi;
    double want;
  };
  ui::DisplayOptions none, diagonal, fixed;
  diagonal.diagonal_mm = 203.2f;  // 8 inches
  fixed = diagonal;
  fixed.px_per_mm = 7.5f;
  // By hand: the diagonal of 1280x800 is 1509.4 px; 10.1 inches are 256.54 mm.
  const Row rows[] = {
      {"the ratio itself wins", fixed, 200.0f, 7.5},
      {"then the diagonal", diagonal, 200.0f, 7.428},
      {"then the driver", none, 200.0f, 7.874},
      {"96 dpi is what a server says that does not know", none, 96.0f, 5.884},
      {"too low to be true", none, 20.0f, 5.884},
      {"too high to be true", none, 5000.0f, 5.884},
      {"nothing known", none, std::nullopt, 5.884},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(ui::px_per_mm(r.options, 1280, 800, r.dpi) == doctest::Approx(r.want).epsilon(0.001));
  }
}

TEST_CASE("a headless display has the size, drivers and density asked for") {
  Desk desk(800, 1280);
  CHECK(desk.display().width_px() == 800);
  CHECK(desk.display().height_px() == 1280);
  CHECK(desk.display().video_driver() == "dummy");
  CHECK(desk.display().render_driver() == "software");
  CHECK(desk.display().px_per_mm() == doctest::Approx(5.884).epsilon(0.001));
}

TEST_CASE("a driver without a screen is used only when it is asked for") {
  for (const std::string driver : {"x11", "wayland", "KMSDRM"}) CHECK(ui::can_be_seen(driver));
  for (const std::string driver : {"dummy", "offscreen", "evdev"})
    CHECK_FALSE(ui::can_be_seen(driver));
  ::setenv("SDL_VIDEODRIVER", "dummy", 1);
  const auto asked = ui::Display::open({});
  ::unsetenv("SDL_VIDEODRIVER");
  REQUIRE_MESSAGE(asked.ok(), asked.status().message());
  CHECK(asked.value().video_driver() == "dummy");
  CHECK(asked.value().width_px() == 1280);
}

}  // namespace display_test
