#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "engine/words/words.h"
#include "engine/words/wrong_clocks.h"
#include "storage/bundle/bag.h"
#include "storage/store/checkpoint.h"
#include "ui/commands/bag_progress.h"
#include "ui/commands/commands.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

int verify_bundle(const std::string& folder, const Surroundings& around) {
  ProgressLine line([&around] { return around.now().since_boot; });
  const auto report = storage::check_bag(folder, storage::Medium::Folder, of_bag(line.progress()));
  line.end();
  if (!report.ok()) return say_failure(report.status());
  if (const engine::Status verdict = report.value().verdict(); !verdict.ok())
    return say_failure(verdict);
  say("{}: whole. {} files, {} bytes, manifest {}\n", report.value().name,
      report.value().payload.size(), report.value().bytes, storage::hex(report.value().manifest));
  for (const std::string& note : report.value().notes) say("note: {}\n", note);
  return 0;
}

// What lies beside the store is made anew when it is opened next.
int shown_otherwise(const std::string& store) {
  const std::string checkpoint = storage::checkpoint_path(store);
  std::error_code ignored;
  std::filesystem::remove(checkpoint, ignored);
  return say_failure(engine::Code::Damaged,
                     fmt::format("{}: it said something else than the entries of the store, which "
                                 "are whole; it was removed. What was shown from it was wrong",
                                 checkpoint));
}

// Entries that do not count since they do not fit; those that were struck are no matter.
std::size_t misfits(const engine::Farm& farm) {
  const auto marked = farm.log.marked();
  return static_cast<std::size_t>(
      std::count_if(marked.begin(), marked.end(), [&](const std::size_t place) {
        const engine::Entry e = farm.log.copy(place);
        return !e.struck && e.fallen != engine::Refusal::None;
      }));
}

// How many entries do not count, and why; and how many count although nobody signed them.
void print_whom_it_trusts(const storage::Store& store) {
  const storage::Counting& counting = store.counting();
  for (const storage::HeldTablet& held : counting.held_back())
    say("Do not count: {} of tablet {} from {} on: {}.\n",
        engine::counted(static_cast<std::size_t>(held.entries), "entry", "entries"), held.shown(),
        held.from, storage::words(held.why));
  if (counting.unsigned_entries() > 0)
    say("Count without a signature: {} of other tablets.\n",
        engine::counted(static_cast<std::size_t>(counting.unsigned_entries()), "entry", "entries"));
}

int verify_journal(const VerifyCall& call, const Surroundings& around) {
  const auto store = open_any_to_look(call, around);
  if (!store.ok()) return say_failure(store.status());
  if (!store.value().damage().empty())
    return say_failure(store.value().writable().code(), store.value().damage());
  const storage::VerifyReport report = store.value().verify();
  if (report.shown_otherwise) return shown_otherwise(store.value().journal().path());
  if (!report.ok())
    return say_failure(engine::Code::Damaged,
                       fmt::format("the journal is damaged: {} ({} found)", report.problems.front(),
                                   report.problems.size()));
  const std::size_t unfit = misfits(store.value().farm());
  say("The journal is whole: {} events, chain and order hold, {}.\n", report.events,
      unfit == 0 ? "every event is possible"
                 : fmt::format("{} do not fit and do not count", unfit));
  if (const std::string line = store.value().unshown(); !line.empty()) say("{}\n", line);
  print_whom_it_trusts(store.value());
  if (report.sides > 0)
    say("Forks: {} more events of other sides are kept, and are whole.\n", report.sides);
  for (const auto& [device, missing] : report.waiting)
    say("Not merged yet from {}: {}\n", device, storage::to_text(missing));
  for (const engine::WrongClock& wrong : store.value().wrong_clocks())
    say("{}\n", engine::words(wrong));
  say("State hash {:016x}\n", engine::state_hash(store.value().farm()));
  return 0;
}

}  // namespace

int verify_command(const VerifyCall& call, const Surroundings& around) {
  return call.folder.empty() ? verify_journal(call, around) : verify_bundle(call.folder, around);
}

}  // namespace ui
