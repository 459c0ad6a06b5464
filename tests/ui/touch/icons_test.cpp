// The format of icons, and every icon that is built in.
#include "ui/touch/icons.h"

#include <doctest/doctest.h>
#include <imgui.h>

#include "tests/support/rig.h"

namespace icons_test {

using ui::Icon;
using ui::IconStroke;

TEST_CASE("each shape of an icon is read with its numbers") {
  const auto icon = ui::icon_from(
      "# a remark\nline 2 3 4 5\nloop 1 1 5 1 5 5\narea 0 0 6 0 6 6\n"
      "ring 12 12 9.5\ndisc 8 10 1.6\narc 12 12 5 -90 270\n");
  REQUIRE(icon.ok());
  REQUIRE(icon.value().size() == 6);
  CHECK(icon.value()[0].kind == IconStroke::Kind::Line);
  CHECK(icon.value()[0].points[1].y == 5);
  CHECK(icon.value()[1].points.size() == 3);
  CHECK(icon.value()[3].radius == 9.5F);
  CHECK(icon.value()[5].from == -90);
  CHECK(icon.value()[5].to == 270);
}

TEST_CASE("what is no icon is refused with its line and the reason") {
  struct Row {
    std::string name, text, want;
  };
  const Row rows[] = {
      {"nothing", "", "draws nothing"},
      {"only a remark", "# nothing\n", "draws nothing"},
      {"unknown shape", "line 2 2 4 4\npath 1 1\n", "line 2: \"path\" is no shape"},
      {"no number", "line 2 2 4 x\n", "\"x\" is no number"},
      {"not finite", "disc 12 12 inf\n", "\"inf\" is no number"},
      {"half a point", "line 2 2 4\n", "two numbers each"},
      {"one point", "line 2 2\n", "2 or more points"},
      {"a loop of two", "loop 2 2 4 4\n", "3 or more points"},
      {"the pen leaves the grid", "line 0.5 2 4 4\n", "leaves the grid"},
      {"beyond the grid", "line 2 2 23.5 4\n", "leaves the grid"},
      {"a ring beyond the grid", "ring 12 12 11.5\n", "leaves the grid"},
      {"a dent", "area 0 0 10 0 5 2 5 10\n", "has a dent"},
      {"no radius", "disc 12 12 0\n", "radius above 0"},
      {"too few for an arc", "arc 12 12 5 0\n", "needs 5 numbers"},
      {"backwards", "arc 12 12 5 90 0\n", "ends before it begins"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const auto icon = ui::icon_from(r.text);
    REQUIRE_FALSE(icon.ok());
    CHECK(icon.status().message().find(r.want) != std::string::npos);
  }
}

TEST_CASE("every icon that is built in can be read, under the name that its file has") {
  for (std::size_t i = 1; i < ui::kIcons; ++i) {
    const auto icon = static_cast<Icon>(i);
    INFO(std::string(ui::name(icon)));
    const auto shape = ui::icon_from(ui::icon_text(icon));
    CHECK_MESSAGE(shape.ok(), shape.status().message());
  }
  CHECK(ui::name(Icon::Acid) == "acid");
  CHECK(ui::name(Icon::Skip) == "skip");
  CHECK(ui::name(Icon::Yards) == "yards");
  CHECK(ui::name(Icon::None).empty());
}

TEST_CASE("an icon stays inside its box and keeps its proportions, whatever the box") {
  test::Rig rig;
  for (const ui::Rect box : {ui::Rect{100, 100, 47, 47}, ui::Rect{100, 100, 300, 60}}) {
    int before = 0;
    rig.show([&](ui::Touch& t) {
      before = t.draw()->VtxBuffer.Size;
      for (std::size_t i = 1; i < ui::kIcons; ++i)
        ui::draw_icon(t.draw(), static_cast<Icon>(i), box, {0, 0, 0});
    });
    const auto& corners = rig.touch.draw()->VtxBuffer;
    REQUIRE(corners.Size > before);
    for (int i = before; i < corners.Size; ++i) {  // one pixel for soft edges
      CHECK(corners[i].pos.x >= box.mid_x() - box.h / 2 - 1.5F);
      CHECK(corners[i].pos.x <= box.mid_x() + box.h / 2 + 1.5F);
      CHECK(corners[i].pos.y >= box.y - 1.5F);
      CHECK(corners[i].pos.y <= box.bottom() + 1.5F);
    }
  }
}

}  // namespace icons_test
