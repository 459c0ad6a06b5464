// How large what one must read on a walk page stands on the glass, at arm's length and through a
// fogged visor. The sizes are this product's own promises: time left 15 mm, a cloth's time 7 mm
// with up to three cloths and 5 mm with up to six, and nothing to act on under 4 mm, as heights of
// a capital or a digit.
#include <doctest/doctest.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <regex>

#include "tests/support/walk_seen.h"

namespace walk_sizes_test {

using test::Evening;

namespace {

// Height of a digit of that text, in mm.
float digit_mm(const ui::Touch& t, float font_px) {
  const ui::Fonts& f = t.frame().fonts;
  for (const ImFont* font : {f.small, f.body, f.large, f.huge, f.clock}) {
    if (std::abs(font->FontSize - font_px) > 0.1F) continue;
    const ImFontGlyph* digit = font->FindGlyphNoFallback('0');
    REQUIRE(digit != nullptr);
    return (digit->Y1 - digit->Y0) / t.frame().px_per_mm;
  }
  FAIL("a text in no size of the program");
  return 0;
}

bool is_time(const std::string& words) {
  static const std::regex time(R"(\+?\d+:\d\d)");
  return std::regex_match(words, time);
}

// Heights of the times on the page, largest first, without the clock in the strip at the top.
std::vector<float> times_of(const ui::Touch& t) {
  std::vector<float> all;
  for (const ui::ShownText& text : t.texts())
    if (is_time(text.text) && text.rect.y > t.mm(11)) all.push_back(digit_mm(t, text.font_px));
  std::sort(all.rbegin(), all.rend());
  return all;
}

void check_times(const Evening& e, int cloths) {
  const std::vector<float> times = times_of(e.touch());
  const auto dwells = engine::dwells(*e.walk(), e.now());
  // Of several that run at once each has its part of the room.
  const bool alone = dwells.size() == 1 || (dwells.size() == 2 && !dwells.front().due());
  if (alone && dwells.front().sure && !times.empty()) CHECK(times.front() >= 15);
  const float least = cloths <= 3 ? 7.0F : cloths <= 6 ? 5.0F : 4.0F;
  for (const float high : times) CHECK(high >= least);
}

void check_act(const Evening& e) {
  const ui::Target* act = test::action(e);
  REQUIRE(act != nullptr);
  float most = 0;
  for (const ui::ShownText& text : e.touch().texts())
    if (ui::holds(act->rect, text.rect)) most = std::max(most, digit_mm(e.touch(), text.font_px));
  CHECK(most >= 4);
}

}  // namespace

TEST_CASE("on every walk page times and the act are as large as promised, on any screen") {
  for (const test::Panel& panel : {test::landscape(), test::portrait(), test::large()})
    for (const test::WalkState& state : test::walk_states()) {
      if (!state.walking) continue;
      INFO(state.name, " ", panel.name);
      Evening e(state.outfit, panel);
      state.reach(e);
      check_times(e, state.outfit.cloths);
      check_act(e);
    }
}

}  // namespace walk_sizes_test
