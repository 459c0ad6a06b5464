#include "ui/touch/text.h"

#include <doctest/doctest.h>

#include "tests/support/rig.h"

namespace text_test {

using test::Rig;
using ui::Rect;
using ui::Size;
using ui::Touch;

namespace {

// The one text of a frame that shows `words` in a box of w x h.
ui::ShownText set_in(const std::string& words, float w, float h, const ui::TextLook& look) {
  Rig rig;
  rig.show([&](Touch& t) { (void)ui::text(t, {20, 20, w, h}, words, look); });
  REQUIRE(rig.touch.texts().size() == 1);
  return rig.touch.texts()[0];
}

}  // namespace

TEST_CASE("text steps down in size until it fits its box") {
  const std::string words = "Colony B3: set in the entrance";
  const auto wide = set_in(words, 1200, 120, {.size = Size::Huge});
  const auto narrow = set_in(words, 600, 80, {.size = Size::Huge});
  CHECK_FALSE(wide.cut);
  CHECK_FALSE(narrow.cut);
  CHECK(wide.font_px > narrow.font_px);
  CHECK(narrow.text == words);
  CHECK(ui::holds({20, 20, 600, 80}, narrow.rect));
}

TEST_CASE("text that cannot fit ends in an ellipsis and says so") {
  const auto cut = set_in("one two three four five six seven eight", 120, 30, {});
  CHECK(cut.cut);
  CHECK(cut.text.ends_with("\xE2\x80\xA6"));
  CHECK(ui::holds({20, 20, 120, 30}, cut.rect));
}

TEST_CASE("a word that must be broken counts as cut, in whole UTF-8 letters") {
  const auto broken = set_in("P\xC5\x99\xC3\xADli\xC5\xA1\xC5\xBElu\xC5\xA5ou\xC4\x8Dk\xC3\xBD", 60,
                             200, {.size = Size::Body});
  CHECK(broken.cut);
  CHECK(ui::letters_of(broken.text).size() >= 13);
}

TEST_CASE("a path goes on in the next line after a slash, and is not cut") {
  const auto path = set_in("Store: /home/keeper/yards/on the hill/autumn/evening.journal", 220, 300,
                           {.size = Size::Body});
  CHECK_FALSE(path.cut);
  CHECK(path.text == "Store: /home/keeper/yards/on the hill/autumn/evening.journal");
}

TEST_CASE("the clock face has digits only: letters step down to one that has them") {
  const auto digits = set_in("12:34", 900, 400, {.size = Size::Clock});
  const auto letters = set_in("over", 900, 400, {.size = Size::Clock});
  CHECK(digits.font_px > letters.font_px);
  CHECK_FALSE(letters.cut);
}

TEST_CASE("line ends are kept and words wrap at spaces") {
  Rig rig;
  rig.show([](Touch& t) {
    const float one = ui::line_height(t, Size::Body);
    CHECK(ui::text_height(t, "a\nb\n\nc", 900, Size::Body) == doctest::Approx(4 * one));
    const float half = ui::text_width(t, "abcd efgh", Size::Body) - 1;
    CHECK(ui::text_height(t, "abcd efgh", half, Size::Body) == doctest::Approx(2 * one));
  });
}

TEST_CASE("the record shows the worst ground under a text") {
  Rig rig;
  rig.show([](Touch& t) {
    t.fill({0, 0, 400, 100}, ui::Surface::Alarm);
    t.fill({0, 0, 60, 100}, ui::Surface::Flash);  // only under the first letters
    (void)ui::text(t, {10, 10, 380, 80}, "half and half", {});
  });
  const auto& shown = rig.touch.texts().at(0);
  CHECK(shown.ground == rig.touch.theme()[ui::Surface::Flash].ground);
  CHECK(ui::contrast_ratio(shown.ink, shown.ground) < ui::kLeastContrast);
}

}  // namespace text_test
