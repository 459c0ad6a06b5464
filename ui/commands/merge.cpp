#include <fmt/format.h>

#include "storage/bundle/bundle_reader.h"
#include "storage/store/kept_setup.h"
#include "ui/commands/commands.h"
#include "ui/commands/progress_line.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

void print_report(const storage::Intake& intake, const storage::Merged& merged,
                  const storage::Store& store) {
  say("Bundles: {} found, {} whole.\n", intake.bundles, intake.whole);
  say("Entries: {} taken in, {} were here already.\n", merged.added, merged.known);
  for (const std::string& line : intake.lines) say("{}\n", line);
  for (const std::string& line : merged.lines) say("{}\n", line);
  print_held_back(store);
  print_contradictions(store.farm());
}

// Nothing whole came: says why in one line, so that a script notices.
int nothing_came(const storage::Intake& intake) {
  if (intake.bundles == 0)
    return say_failure(engine::Code::NotFound,
                       "There is no bundle below the folders: a bundle holds a bagit.txt");
  return say_failure(engine::Code::Damaged, intake.lines.empty()
                                                ? "The bundles hold no entries: nothing to merge"
                                                : intake.lines.front());
}

}  // namespace

int merge_command(const MergeCall& call, const Surroundings& around) {
  ProgressLine line([&around] { return around.now().since_boot; });
  auto intake = storage::read_bundles(call.folders, line.progress());
  line.end();
  if (!intake.ok()) return say_failure(intake.status());
  if (intake.value().events.empty()) return nothing_came(intake.value());
  auto store = open_whole_store(call, around, true);
  if (!store.ok()) return say_failure(store.status());
  const storage::KeptSetup before(store.value());
  const auto merged = store.value().merge(std::move(intake.value().events), line.progress(),
                                          intake.value().signatures);
  line.end();
  if (!merged.ok()) return say_failure(merged.status());
  const engine::Status kept = before.say_again(store.value(), around.now());
  if (!kept.ok()) return say_failure(kept);
  print_report(intake.value(), merged.value(), store.value());
  return 0;
}

}  // namespace ui
