#include <fmt/format.h>

#include "storage/spreadsheet.h"
#include "storage/whole_file.h"
#include "ui/commands/commands.h"

namespace ui {
namespace {

constexpr std::size_t kMostSheetBytes = 256u << 20;

}  // namespace

int read_command(const ReadCall& call, const Surroundings& around) {
  const auto text = storage::read_whole_file(call.file, kMostSheetBytes);
  if (!text.ok()) return say_failure(text.status());
  auto store = open_store(call, around, true);
  if (!store.ok()) return say_failure(store.status());
  const engine::Stamp now = around.now();
  const auto id = [&] { return around.new_id(now.at.time_since_epoch().count()); };
  auto reading =
      storage::read_spreadsheet(store.value().farm(), text.value(), id, engine::local_date(now));
  if (!reading.ok())
    return say_failure(reading.status().code(), call.file + ": " + reading.status().message());
  const auto events = store.value().next_all(now, std::move(reading.value().events));
  if (const engine::Status saved = store.value().append_all(events); !saved.ok())
    return say_failure(saved);
  fmt::print("{}", storage::report_text(reading.value().report));
  return 0;
}

}  // namespace ui
