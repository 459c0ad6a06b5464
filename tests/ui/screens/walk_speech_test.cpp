// What a walk says aloud.
#include "ui/screens/walk/now/walk_speech.h"

#include <doctest/doctest.h>

#include "tests/support/walk_seen.h"

namespace walk_speech_test {

using namespace std::chrono_literals;
using test::act;
using test::Evening;
using test::through_gate;

namespace {

std::string heard(Evening& e, ui::SpeechMemory& memory) {
  return ui::speech_wanted(memory, e.look(), *e.walk(), e.views.walk.under_way);
}

}  // namespace

TEST_CASE("numbers are spelt out, names stay") {
  struct Row {
    std::string written, said;
  };
  const Row rows[] = {{"B4", "B four"},
                      {"B14", "B fourteen"},
                      {"A20", "A twenty"},
                      {"C42b", "C forty two b"},
                      {"101", "one zero one"},
                      {"07", "zero seven"},
                      {"1.75", "one point seven five"},
                      {"0.071", "zero point zero seven one"},
                      {"Quarry Gate East 3", "Quarry Gate East three"},
                      {"", ""}};
  for (const Row& r : rows) CHECK(ui::spoken(r.written) == r.said);
}

TEST_CASE("each step is said once, as the button means it") {
  Evening e({.colonies = 3, .cloths = 1});
  ui::SpeechMemory memory;
  through_gate(e);
  CHECK(heard(e, memory) == "A one. Two grams. Set.");
  CHECK(heard(e, memory).empty());
  e.tap("A1 is set");
  CHECK(heard(e, memory).empty());  // nothing to do but wait
  e.jump(91s);
  CHECK(heard(e, memory) == "A one: lift. Cloth one.");
  e.tap("A1 is covered");
  CHECK(heard(e, memory) == "A two. Two grams. Set.");
}

TEST_CASE("a cloth's end is announced once, half a minute ahead") {
  Evening e({.colonies = 1, .cloths = 1});
  ui::SpeechMemory memory;
  through_gate(e);
  act(e, 2);
  (void)heard(e, memory);
  const auto seal = e.walk()->rules.seal_goal;
  e.jump(std::chrono::duration_cast<std::chrono::seconds>(seal) - 31s);
  CHECK(heard(e, memory).empty());
  e.jump(2s);
  CHECK(heard(e, memory) == "A one: cloth off in thirty seconds.");
  e.jump(1s);
  CHECK(heard(e, memory).empty());
  e.jump(30s);
  CHECK(heard(e, memory) == "A one: cloth off.");
}

TEST_CASE("what has to be held is said to be held") {
  Evening e;
  e.write(engine::ColonyChanged{.colony = e.colony(1), .supers_on = true});
  through_gate(e);
  ui::SpeechMemory memory;
  CHECK(heard(e, memory) == "A one. Two grams. Set. Hold to record it.");
}

}  // namespace walk_speech_test
