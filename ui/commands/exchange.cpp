#include "storage/bundle/exchange.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>

#include "storage/bundle/sql_server.h"
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

// Of one pass: whether anything came or went, and why the server has not got all of it.
struct Pass {
  bool news = false;
  engine::Status loaded;
};

engine::Status load(const storage::Store& store, const ExchangeCall& call,
                    const Surroundings& around, bool quiet) {
  ProgressLine line([&around] { return around.now().since_boot; });
  const auto loaded =
      storage::load_into_server(store, call.postgres, line.progress(), around.stopped);
  line.end();
  if (!loaded.ok()) return loaded.status();
  if (!quiet)
    say("PostgreSQL has {} entries and {} rows of the register.\n", loaded.value().entries,
        loaded.value().treatments);
  std::fflush(stdout);
  return {};
}

engine::Result<Pass> one_pass(const ExchangeCall& call, const Surroundings& around, bool first,
                              bool behind) {
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
  Pass pass{done.value().taken > 0 || !done.value().put.empty(), {}};
  if (pass.news || first) print_done(done.value(), store.value());
  if (!call.postgres.empty() && (pass.news || first || behind))
    pass.loaded = load(store.value(), call, around, !pass.news && !first);
  return pass;
}

}  // namespace

// While it watches, the store is open only during a pass, so that the screens can be started. A
// server that is away gets all of it in the first pass in which it is there again.
int exchange_command(const ExchangeCall& call, const Surroundings& around) {
  const auto first = one_pass(call, around, true, false);
  if (!first.ok()) return say_failure(first.status());
  engine::Status loaded = first.value().loaded;
  int code = loaded.ok() ? 0 : say_failure(loaded);
  while (call.every && rest(around, std::chrono::seconds(*call.every))) {
    const auto pass = one_pass(call, around, false, !loaded.ok());
    const bool later = pass.ok() || pass.status().code() == engine::Code::Busy;
    if (!later) return say_failure(pass.status());
    if (!pass.ok()) continue;
    const bool said = pass.value().loaded.message() == loaded.message();
    loaded = pass.value().loaded;
    if (!loaded.ok() && !said) (void)say_failure(loaded);
    code = loaded.ok() ? 0 : 1;
  }
  return code;
}

}  // namespace ui
