#include <fmt/format.h>

#include "storage/answers/mites_json.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {

int mites_command(const MitesCall& call) {
  const auto text = read_input(call.file);
  if (!text.ok()) return say_failure(text.status());
  const auto answer = storage::answer_mites(text.value());
  if (!answer.ok()) return say_failure(answer.status());
  fmt::print("{}", json_for_terminal(answer.value()));
  return 0;
}

}  // namespace ui
