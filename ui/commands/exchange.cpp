#include "storage/bundle/exchange.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>

#include "storage/store/kept_setup.h"
#include "ui/commands/commands.h"
#include "ui/commands/progress_line.h"
#include "ui/commands/say.h"

namespace ui {
namespace {

void print_done(const storage::Exchanged& done, const storage::Store& store) {
  say("Bundles: {} taken in, {} not whole yet, {} put out. Entries: {} new.\n", done.taken,
      done.waiting.size(), done.put.size(), done.entries);
  for (const std::string& name : done.waiting) say("Not whole yet: {}\n", name);
  for (const std::string& line : done.lines) say("{}\n", line);
  if (done.taken > 0) print_held_back(store);
  if (done.taken > 0) print_contradictions(store.farm());
  std::fflush(stdout);
}

engine::Result<bool> one_pass(const ExchangeCall& call, const Surroundings& around, bool quiet) {
  auto store = open_whole_store(call, around, true);
  if (!store.ok()) return store.status();
  ProgressLine line([&around] { return around.now().since_boot; });
  const storage::KeptSetup before(store.value());
  const storage::ExchangePlace place{
      call.folder, engine::iso_date(engine::local_date(around.now())), around.stopped};
  const auto done = storage::exchange(store.value(), place, line.progress());
  line.end();
  if (!done.ok()) return done.status();
  const engine::Status kept = before.say_again(store.value(), around.now());
  if (!kept.ok()) return kept;
  const bool news = done.value().taken > 0 || !done.value().put.empty();
  if (news || !quiet) print_done(done.value(), store.value());
  return news;
}

}  // namespace

// While it watches, the store is open only during a pass, so that the screens can be started.
int exchange_command(const ExchangeCall& call, const Surroundings& around) {
  const auto first = one_pass(call, around, false);
  if (!first.ok()) return say_failure(first.status());
  while (call.every && rest(around, std::chrono::seconds(*call.every))) {
    const auto pass = one_pass(call, around, true);
    const bool later = pass.ok() || pass.status().code() == engine::Code::Busy;
    if (!later) return say_failure(pass.status());
  }
  return 0;
}

}  // namespace ui
