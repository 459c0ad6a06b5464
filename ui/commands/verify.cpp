#include <fmt/format.h>

#include "storage/bundle/bag.h"
#include "ui/commands/commands.h"

namespace ui {
namespace {

int verify_bundle(const std::string& folder) {
  const auto report = storage::check_bag(folder);
  if (!report.ok()) return say_failure(report.status());
  if (const engine::Status verdict = report.value().verdict(); !verdict.ok())
    return say_failure(verdict);
  fmt::print("{}: whole. {} files, {} bytes, manifest {}\n", report.value().name,
             report.value().payload.size(), report.value().bytes,
             storage::hex(report.value().manifest));
  for (const std::string& note : report.value().notes) fmt::print("note: {}\n", note);
  return 0;
}

int verify_journal(const VerifyCall& call, const Surroundings& around) {
  const auto store = open_store(call, around, false);  // replays: every event was asked for
  if (!store.ok()) return say_failure(store.status());
  if (!store.value().damage().empty())
    return say_failure(engine::Code::Damaged, store.value().damage());
  const storage::VerifyReport report = store.value().journal().verify();
  if (!report.ok())
    return say_failure(engine::Code::Damaged,
                       fmt::format("the journal is damaged: {} ({} found)", report.problems.front(),
                                   report.problems.size()));
  fmt::print("The journal is whole: {} events, chain and order hold, every event is possible.\n",
             report.events);
  if (report.sides > 0)
    fmt::print("Forks: {} more events of other sides are kept, and are whole.\n", report.sides);
  for (const auto& [device, missing] : report.waiting)
    fmt::print("Not merged yet from {}: {}\n", device, storage::to_text(missing));
  fmt::print("State hash {:016x}\n", engine::state_hash(store.value().farm()));
  return 0;
}

}  // namespace

int verify_command(const VerifyCall& call, const Surroundings& around) {
  return call.folder.empty() ? verify_journal(call, around) : verify_bundle(call.folder);
}

}  // namespace ui
