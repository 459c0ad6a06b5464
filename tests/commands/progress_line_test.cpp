#include "ui/commands/progress_line.h"

#include <doctest/doctest.h>

#include <string>

#include "ui/commands/bag_progress.h"

namespace progress_line_test {

using engine::Ms;

TEST_CASE("a line says how far, how fast and how long still") {
  struct Row {
    std::string name;
    std::size_t done, of;
    Ms taken;
    std::string want;
  };
  const Row rows[] = {
      {"nobody knows how much", 3, 0, Ms{5000}, "reading ..."},
      {"the first second", 50, 200, Ms{999}, "reading: 25 %"},
      {"after it", 50, 200, Ms{1000}, "reading: 25 %, 50 a second, 3 s to go"},
      {"a broken second is a whole one", 150, 200, Ms{1400},
       "reading: 75 %, 107 a second, 1 s to go"},
      {"minutes", 100, 20'000, Ms{1000}, "reading: 0 %, 100 a second, 4 min to go"},
      {"nothing yet", 0, 200, Ms{5000}, "reading: 0 %"},
      {"done", 200, 200, Ms{2000}, "reading: 100 %, 100 a second, 0 s to go"},
      {"more than was thought", 300, 200, Ms{2000}, "reading: 150 %"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(ui::progress_words("reading", r.done, r.of, r.taken) == r.want);
  }
}

TEST_CASE("a pipe is told nothing") {
  ui::ProgressLine line([] { return Ms{0}; });  // standard error of the tests is no terminal
  CHECK_FALSE(bool(line.progress()));
}

TEST_CASE("a bundle is shown in kilobytes, step by step; in a pipe nobody asks it") {
  std::string said;
  const auto report = ui::of_bag([&](std::string_view doing, std::size_t done, std::size_t of) {
    said += std::string(doing) + " " + std::to_string(done) + "/" + std::to_string(of) + "; ";
  });
  report({storage::BagStep::Writing, 2'500'000, 10'000'000});
  report({storage::BagStep::ReadingBack, 10'000'000, 10'000'000});
  CHECK(said == "writing (kB) 2500/10000; reading back (kB) 10000/10000; ");
  CHECK_FALSE(bool(ui::of_bag({})));
}

}  // namespace progress_line_test
