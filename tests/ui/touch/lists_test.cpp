#include "ui/touch/lists.h"

#include <doctest/doctest.h>

#include "tests/support/rig.h"

namespace lists_test {

using test::Rig;
using ui::Touch;

namespace {

std::vector<ui::Row> colonies(int n) {
  std::vector<ui::Row> rows;
  for (int i = 1; i <= n; ++i) rows.push_back({"B" + std::to_string(i)});
  return rows;
}

}  // namespace

TEST_CASE("a list turns its pages and tells the row by its place in the whole list") {
  Rig rig;
  int page = 0;
  std::optional<std::size_t> tapped;
  const auto rows = colonies(14);
  rig.show([&](Touch& t) {
    if (const auto row = ui::list_rows(t, {20, 20, 1240, 660}, page, rows)) tapped = row;
  });
  CHECK(rig.sees("1 of 3"));
  CHECK_FALSE(rig.find("PREV").enabled);
  CHECK_THROWS((void)rig.find("B6"));
  rig.tap("NEXT");
  rig.tap("NEXT");
  CHECK(page == 2);
  CHECK_FALSE(rig.find("NEXT").enabled);
  rig.tap("B14");
  CHECK(tapped == 13);
  rig.tap("PREV");
  CHECK(page == 1);
}

TEST_CASE("the last row is on some page, and no row on two") {
  for (const int n : {1, 5, 6, 7, 10, 11, 40}) {
    INFO(n);
    Rig rig;
    int page = 0;
    std::size_t seen = 0;
    const auto rows = colonies(n);
    rig.show([&](Touch& t) { (void)ui::list_rows(t, {20, 20, 1240, 640}, page, rows); });
    for (int last = -1; last != page; rig.frame()) {
      last = page;
      for (const auto& target : rig.touch.targets()) seen += target.label[0] == 'B' ? 1U : 0U;
      ++page;
      rig.frame();
    }
    CHECK(seen == static_cast<std::size_t>(n));
  }
}

TEST_CASE("a page that is no longer there becomes the last one") {
  Rig rig;
  int page = 9;
  const auto rows = colonies(3);
  rig.show([&](Touch& t) { (void)ui::list_rows(t, {20, 20, 1240, 640}, page, rows); });
  CHECK(page == 0);
}

TEST_CASE("rows that are only shown cannot be tapped") {
  Rig rig;
  int page = 0;
  const auto rows = colonies(3);
  rig.show([&](Touch& t) {
    (void)ui::list_rows(t, {20, 20, 1240, 640}, page, rows, ui::RowKind::Shown);
  });
  CHECK(rig.touch.targets().empty());
  CHECK(rig.sees("B3"));
}

TEST_CASE("titles of one page share one size, and outweigh or match their second lines") {
  Rig rig;
  int page = 0;
  std::vector<ui::Row> rows = {{"Short", "one line"}, {"Other", "one line"}};
  rows.push_back({std::string(60, 'm').replace(20, 1, " ").replace(40, 1, " "), "one line"});
  for (const std::size_t shown : {2U, 3U}) {
    INFO(shown);
    rig.show([&](Touch& t) {
      (void)ui::list_rows(t, {20, 20, 420, 640}, page, std::span(rows).first(shown));
    });
    std::vector<float> titles, seconds;
    for (const auto& text : rig.touch.texts())
      (text.text == "one line" ? seconds : titles).push_back(text.font_px);
    REQUIRE(titles.size() == shown);
    for (const float px : titles) CHECK(px == titles.front());
    CHECK((shown == 2 ? titles[0] > seconds[0] : titles[0] >= seconds[0]));
  }
}

TEST_CASE("the page of a row is the one that shows it") {
  Rig rig;
  const auto rows = colonies(23);
  for (std::size_t row = 0; row < rows.size(); ++row) {
    INFO(row);
    int page = 0;
    rig.show([&](Touch& t) {
      page = ui::page_with(t, {20, 20, 1240, 640}, rows.size(), row);
      (void)ui::list_rows(t, {20, 20, 1240, 640}, page, rows);
    });
    CHECK(rig.find(rows[row].title).label == rows[row].title);
  }
}

TEST_CASE("phrases combine: each tap tells which") {
  Rig rig;
  int page = 0;
  std::vector<ui::Phrase> list = {{"queenless?"}, {"seal leaking"}, {"ants"}};
  rig.show([&](Touch& t) {
    if (const auto i = ui::phrases(t, {20, 20, 1240, 600}, page, list)) list[*i].on = !list[*i].on;
  });
  rig.tap("ants");
  rig.tap("queenless?");
  rig.tap("ants");
  CHECK(list[0].on);
  CHECK_FALSE(list[1].on);
  CHECK_FALSE(list[2].on);
}

TEST_CASE("the bar of screens tells the screen and wraps on a narrow panel") {
  const std::vector<std::string> names = {"Today", "Yards", "Walk", "Kit", "Register", "Setup"};
  for (const test::Panel& panel : {test::landscape(), test::portrait()}) {
    INFO(panel.name);
    Rig rig(panel);
    int current = 0;
    rig.show([&](Touch& t) {
      ui::Rect page = ui::inset(t.screen(), t.gap());
      const auto bar = ui::cut_bottom(page, ui::nav_height(t, names, page.w));
      if (const auto i = ui::nav_bar(t, bar, names, current)) current = *i;
    });
    const bool two_lines = rig.find("Today").rect.y != rig.find("Setup").rect.y;
    CHECK(two_lines == (panel.height > panel.width));
    rig.tap("Register");
    CHECK(current == 4);
  }
}

}  // namespace lists_test
