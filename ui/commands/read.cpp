// Takes in a spreadsheet. At a terminal the keeper sees what would become of its rows and is asked
// first; a script is not asked.
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <iostream>

#include "storage/sheets/spreadsheet.h"
#include "storage/sheets/workbook_text.h"
#include "ui/commands/commands.h"
#include "ui/commands/progress_line.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

constexpr std::size_t kRowsShown = 5, kRefusedShown = 15;

// The workbook's sheet that was read, and that there are others.
void name_sheet(const storage::WorkbookText& sheet, storage::SheetReport& report) {
  if (sheet.sheet.empty()) return;
  std::string line = fmt::format("Sheet \"{}\" of the workbook is read.", sheet.sheet);
  if (!sheet.others.empty())
    line += fmt::format(" It also has: {} (--sheet NAME reads one of them).",
                        fmt::join(sheet.others, ", "));
  report.columns.insert(report.columns.begin(), line);
}

// The report with its first rows and the first that are refused.
storage::SheetReport shortened(const storage::SheetReport& all) {
  storage::SheetReport some{all.sort, all.columns, {}};
  std::size_t shown = 0, refused = 0;
  for (const storage::RowReport& row : all.rows) {
    const bool bad = row.fate == storage::RowFate::Refused;
    if (bad ? refused++ < kRefusedShown : shown++ < kRowsShown) some.rows.push_back(row);
  }
  return some;
}

std::string preview_text(const storage::SheetReport& all) {
  const storage::SheetReport some = shortened(all);
  std::string text = storage::report_text(some);
  text.erase(text.rfind('\n', text.size() - 2) + 1);  // the sum is that of all rows
  if (some.rows.size() < all.rows.size())
    text += fmt::format("... and {} rows more\n", all.rows.size() - some.rows.size());
  using enum storage::RowFate;
  return text + fmt::format("{} rows would be added, {} changed, {} are as before, {} refused.\n",
                            all.count(Added), all.count(Changed), all.count(Same),
                            all.count(Refused));
}

bool wants_it(const storage::SheetReport& report) {
  fmt::print("{}Take this in? [y/N] ", lines_for_terminal(preview_text(report)));
  std::fflush(stdout);
  std::string answer;
  if (!std::getline(std::cin, answer)) say("\n");
  return answer == "y" || answer == "Y" || answer == "yes";
}

bool must_ask(const ReadCall& call) {
  return !call.yes && ::isatty(STDIN_FILENO) == 1 && ::isatty(STDOUT_FILENO) == 1;
}

// `store` is the one that is there, or a failure while there is none.
int take_in(engine::Result<storage::Store> store, const ReadCall& call, const Surroundings& around,
            const engine::Stamp& now, storage::SheetReading reading) {
  if (!store.ok()) store = open_whole_store(call, around, true);
  if (!store.ok()) return say_failure(store.status());
  ProgressLine line([&around] { return around.now().since_boot; });
  const auto events = store.value().next_all(now, std::move(reading.events));
  const engine::Status saved = store.value().append_all(events, line.progress());
  line.end();
  if (!saved.ok()) return say_failure(saved);
  fmt::print("{}", lines_for_terminal(storage::report_text(reading.report)));
  return 0;
}

}  // namespace

int read_command(const ReadCall& call, const Surroundings& around) {
  const auto sheet = storage::read_sheet_file(call.file, call.sheet);
  if (!sheet.ok()) return say_failure(sheet.status());
  // A sheet that cannot be read must not leave a new, empty store behind.
  auto store = open_whole_store(call, around, false);
  const bool there = store.ok();
  if (!there && store.status().code() != engine::Code::NotFound) return say_failure(store.status());
  const engine::Stamp now = around.now();
  ProgressLine line([&around] { return around.now().since_boot; });
  auto reading =
      storage::read_spreadsheet(there ? store.value().farm() : engine::Farm{}, sheet.value().text,
                                engine::local_date(now), line.progress());
  line.end();
  if (!reading.ok())
    return say_failure(reading.status().code(), call.file + ": " + reading.status().message());
  name_sheet(sheet.value(), reading.value().report);
  const bool news = !reading.value().events.empty();
  if (news && must_ask(call) && !wants_it(reading.value().report))
    return say_failure(engine::Code::Failed, "nothing was taken in");
  return take_in(std::move(store), call, around, now, std::move(reading).value());
}

}  // namespace ui
