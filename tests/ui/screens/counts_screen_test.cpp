#include <doctest/doctest.h>

#include "tests/support/farm_states.h"
#include "ui/screens/words/count_words.h"

namespace counts_screen_test {

using test::Evening;

namespace {

void open_heron(Evening& e) {
  test::season(e);
  for (const char* label : {"Counts", "Heron Weir", "Count a colony", "H1"}) e.tap(label);
}

}  // namespace

TEST_CASE("a count is three taps and its digits, and the decision follows at once") {
  Evening e;
  open_heron(e);
  for (const char* label : {"1", "4", "OK", "300 bees"}) e.tap(label);
  CHECK(e.sees("14 mites on 300 bees: 4.7 per 100 bees (95 % limits"));
  e.tap("Save count");
  REQUIRE(e.refused.empty());
  const auto& taken = std::get<engine::CountTaken>(e.farm.log.back()->event.body);
  CHECK(taken.mites == 14);
  CHECK(taken.bees == 300);
  CHECK(taken.on == e.look().today());
  CHECK(e.sees("TREAT"));
  CHECK(e.sees("count saved"));
  e.tap("Next colony");
  CHECK(e.sees("14 mites on 300 bees"));
}

// Mites on 300 bees at 3 per 100, 10 % error each way: watch up to 4, treat from 14 (binomial
// tails, P(X<=4) = 0.054 and P(X>=14) = 0.074).
TEST_CASE("the decision is in words: watch, count more or treat") {
  struct Row {
    std::string name, mites, tag;
  };
  const Row rows[] = {{"none at all", "0", "WATCH"},
                      {"four", "4", "WATCH"},
                      {"five", "5", "COUNT MORE"},
                      {"thirteen", "13", "COUNT MORE"},
                      {"fourteen", "14", "TREAT"}};
  for (const Row& r : rows) {
    INFO(r.name);
    Evening e;
    open_heron(e);
    for (const char digit : r.mites) e.tap(std::string(1, digit));
    for (const char* label : {"OK", "300 bees", "Save count"}) e.tap(label);
    CHECK(e.sees(r.tag));
    CHECK(e.has(r.tag == "COUNT MORE" ? "Count it again" : "Another count"));
  }
}

TEST_CASE(
    "without treatment: when the yard and each colony cross the threshold, and a week's cost") {
  Evening e;
  test::season(e);
  for (int i = 0; i < 2; ++i)
    e.write(engine::CountTaken{test::id<engine::ColonyId>(501 + i), e.look().today(),
                               engine::CountMethod::AlcoholWash, i == 0 ? 3 : 24, 300});
  for (const char* label : {"Counts", "Heron Weir", "Without treatment"}) e.tap(label);
  CHECK(e.sees("expected mites on 100 bees (model)"));
  CHECK(e.sees("Model, 15 points either way at best"));
  std::string said = e.all_words();
  while (e.has("NEXT") && e.target("NEXT").enabled) e.tap("NEXT"), said += e.all_words();
  for (const char* words : {"Waiting a week: mites change by", "the threshold of 3.0",
                            "Mites carried in from other colonies are not counted"}) {
    INFO(std::string(words));
    CHECK(said.find(words) != std::string::npos);
  }
  e.tap("Each colony");
  CHECK(e.sees("OVER NOW"));  // H2, at 8 per 100
  CHECK(e.sees("over 3.0: "));
  CHECK(e.sees("; at worst "));
  e.tap("The yard"), e.tap("Back");
  CHECK(e.has("Count a colony"));
}

TEST_CASE("green is only what a count decides, not a figure just below the threshold") {
  using engine::mites::Decision;
  CHECK(ui::look_of(Decision::Watch, false).surface == ui::Surface::Good);
  for (const Decision d : {Decision::Treat, Decision::Watch, Decision::Recount})
    CHECK(ui::look_of(d, true).surface != ui::Surface::Good);
  CHECK(std::string(ui::look_of(Decision::Watch, true).tag) == "WATCH");
}

TEST_CASE("a second wash is pooled with the first") {
  Evening e;
  open_heron(e);
  for (const char* label : {"9", "OK", "300 bees", "Save count", "Count it again"}) e.tap(label);
  for (const char* label : {"1", "9", "OK", "300 bees", "Save count"}) e.tap(label);
  CHECK(e.sees("28 mites on 600 bees"));
  CHECK(e.sees("TREAT"));
}

TEST_CASE("a yard shows each counted colony with limits, the threshold and what would decide") {
  Evening e;
  test::season(e);
  e.tap("Counts");
  e.tap("Thistle Bank");
  for (const char* words : {"A1", "threshold 3.0", "mites on 100 bees, 95 % limits", "count more"})
    CHECK(e.sees(words));
  CHECK(e.sees("1 of 6 colonies counted, 3.0 per 100 bees in all (95 % limits"));
  bool said = false;
  while (!(said = e.sees("Threshold 3.0 per 100 bees")) && e.target("NEXT").enabled) e.tap("NEXT");
  CHECK(said);
}

TEST_CASE("a board gives a wide band, and after a round the caution") {
  Evening e;
  test::season(e);
  for (const char* label : {"Counts", "Thistle Bank", "Count a colony", "A1", "2", "0", "OK",
                            "300 bees", "sticky board", "Hours", "1 day"})
    e.tap(label);
  CHECK(e.sees("20.0 a day: about 840 mites in the colony, anything from"));
  CHECK(e.sees("A board only hints"));
  CHECK(e.sees("a board now shows the kill"));
}

TEST_CASE("the decision waits for its day: what the log says is computed once an entry") {
  Evening e;
  test::season(e);
  e.tap("Counts");
  const auto yard = test::id<engine::YardId>(1);
  const auto* first = e.answers.season.yard(e.farm, yard, e.look().today());
  CHECK(e.answers.season.yard(e.farm, yard, e.look().today()) == first);
  e.write(
      engine::CountTaken{e.colony(1), e.look().today(), engine::CountMethod::AlcoholWash, 30, 300});
  const auto* now = e.answers.season.yard(e.farm, yard, e.look().today());
  REQUIRE(now != nullptr);
  CHECK(now->decision == engine::mites::Decision::Treat);
}

TEST_CASE("an empty page says what to do next, with one act") {
  struct Empty {
    std::vector<std::string> taps;
    std::string act;
  };
  for (const Empty& page : {Empty{{"Counts"}, "Add a yard"}, Empty{{"Courses"}, "Add a yard"},
                            Empty{{"Kit", "Pack list"}, "Choose your label"}}) {
    INFO(page.taps.front());
    Evening e;
    e.farm = {};
    e.views = {};
    e.redraw();
    for (const std::string& tapped : page.taps) e.tap(tapped);
    const ui::ScreenName before = e.views.screen;
    e.tap(page.act);
    CHECK(e.views.screen != before);
  }
}

TEST_CASE("a counted yard says its verdict first, in the largest type of the page") {
  Evening e;
  test::season(e);
  for (int n = 1; n <= 2; ++n)
    e.write(engine::CountTaken{test::id<engine::ColonyId>(500 + n), e.look().today(),
                               engine::CountMethod::AlcoholWash, 30, 300});
  e.redraw();
  e.tap("Counts"), test::tap_listed(e, "Heron Weir");
  float most = 0, verdict = 0;
  for (const ui::ShownText& text : e.touch().texts()) {
    most = std::max(most, text.font_px);
    if (text.text == "TREAT") verdict = text.font_px;
  }
  CHECK(verdict == most);
  CHECK(e.sees("10.0 in 100, threshold 3"));
}

}  // namespace counts_screen_test
