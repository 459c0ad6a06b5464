#include "tests/fuzz/targets.h"
#include "ui/commands/play_script.h"

void fuzz::play(std::string_view bytes) {
  const auto steps = ui::read_play_script(bytes);
  if (!steps.ok()) {
    must(steps.status().message().starts_with("line "), "a refusal names the line");
    return;
  }
  std::size_t line = 0;
  for (const ui::PlayStep& step : steps.value()) {
    must(step.line > line, "steps come in the order of their lines");
    line = step.line;
    must(step.length.count() >= 0, "no step waits backwards");
  }
  (void)ui::stick_before(steps.value(), steps.value().size());
}
