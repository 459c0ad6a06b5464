#include "ui/commands/play_script.h"

#include <doctest/doctest.h>

namespace play_script_test {

using namespace ui;

// "One step a line, `#` starts a comment" (the contract of the commands).
TEST_CASE("a # at the start or after white space starts a comment, on every step") {
  struct Row {
    std::string name, line, words;
  };
  const Row rows[] = {
      {"tap", "tap START # the walk begins", "START"},
      {"after a tab", "hold Strike it\t# one second", "Strike it"},
      {"see", "see 0:50   #0:50 left", "0:50"},
      {"stick", "stick in usb # a folder", "usb"},
      {"within a word it is a letter", "see C#4", "C#4"},
      {"the second one counts", "see C#4 # fourth", "C#4"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const auto steps = read_play_script(r.line);
    REQUIRE(steps.ok());
    REQUIRE(steps.value().size() == 1);
    CHECK(steps.value().front().words == r.words);
  }
}

TEST_CASE("steps without words may have a comment too") {
  const auto steps = read_play_script(
      "# a walk\n"
      "screen 800x1280 10.1in # upright\n"
      "at 2026-08-14T19:40:00-07:00 # dusk\n"
      "wait 95s # a dwell\n"
      "crash # gone\n"
      "stick out # pulled\n"
      "   # nothing\n");
  REQUIRE(steps.ok());
  REQUIRE(steps.value().size() == 5);
  CHECK(steps.value()[0].height == 1280);
  CHECK(steps.value()[2].length == engine::Ms{95'000});
  CHECK(steps.value()[4].line == 6);
}

TEST_CASE("a step whose words are all comment is refused with its line") {
  const auto steps = read_play_script("wait 1s\ntap # START\n");
  REQUIRE(!steps.ok());
  CHECK(steps.status().code() == engine::Code::BadInput);
  CHECK(steps.status().message() == "line 2: tap: the label is missing");
}

TEST_CASE("the stick that is in is known from the steps before") {
  const auto steps = read_play_script("stick in a\ncrash\nstick in b\nstick out\nwait 1s\n");
  REQUIRE(steps.ok());
  CHECK(!stick_before(steps.value(), 0));
  CHECK(stick_before(steps.value(), 1) == "a");
  CHECK(stick_before(steps.value(), 2) == "a");
  CHECK(stick_before(steps.value(), 3) == "b");
  CHECK(!stick_before(steps.value(), 4));
}

}  // namespace play_script_test
