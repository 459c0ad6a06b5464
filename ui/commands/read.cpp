#include <fmt/format.h>

#include "storage/sheets/csv_table.h"
#include "storage/sheets/spreadsheet.h"
#include "ui/commands/commands.h"
#include "ui/commands/progress_line.h"
#include "ui/commands/say.h"

namespace ui {

int read_command(const ReadCall& call, const Surroundings& around) {
  const auto text = storage::read_sheet(call.file);
  if (!text.ok()) return say_failure(text.status());
  // A sheet that cannot be read must not leave a new, empty store behind.
  auto store = open_whole_store(call, around, false);
  const bool there = store.ok();
  if (!there && store.status().code() != engine::Code::NotFound) return say_failure(store.status());
  const engine::Stamp now = around.now();
  ProgressLine line([&around] { return around.now().since_boot; });
  auto reading = storage::read_spreadsheet(there ? store.value().farm() : engine::Farm{},
                                           text.value(), engine::local_date(now), line.progress());
  line.end();
  if (!reading.ok())
    return say_failure(reading.status().code(), call.file + ": " + reading.status().message());
  if (!there) store = open_whole_store(call, around, true);
  if (!store.ok()) return say_failure(store.status());
  const auto events = store.value().next_all(now, std::move(reading.value().events));
  if (const engine::Status saved = store.value().append_all(events, line.progress()); !saved.ok()) {
    line.end();
    return say_failure(saved);
  }
  line.end();
  fmt::print("{}", lines_for_terminal(storage::report_text(reading.value().report)));
  return 0;
}

}  // namespace ui
