#include "ui/app/exchange_watch.h"

#include <fmt/format.h>

#include "engine/farm/queries.h"
#include "engine/words/words.h"
#include "storage/bundle/exchange.h"

namespace ui {
namespace {

constexpr engine::Ms kEvery{60'000};

std::vector<std::string> lines_of(const storage::Exchanged& done) {
  std::vector<std::string> lines = {fmt::format(
      "{} taken in with {}, {} put out.", engine::counted(done.taken, "bundle", "bundles"),
      engine::counted(static_cast<std::size_t>(done.entries), "new entry", "new entries"),
      done.put.size())};
  for (const std::string& name : done.waiting) lines.push_back("Not whole yet: " + name);
  lines.insert(lines.end(), done.lines.begin(), done.lines.end());
  return lines;
}

}  // namespace

ExchangeWatch::ExchangeWatch(const std::string& store_path) : store_path_(store_path) {
  seen_.folder = storage::exchange_folder(store_path);
}

engine::Status ExchangeWatch::use(const std::string& folder) {
  engine::Status kept = storage::keep_exchange_folder(store_path_, folder);
  if (!kept.ok()) return kept;
  seen_ = {.folder = folder};
  look_now();
  return {};
}

bool ExchangeWatch::turn(storage::Store& store, const engine::Stamp& now) {
  const bool due = !next_ || now.since_boot >= *next_;
  if (seen_.folder.empty() || !due) return false;
  next_ = now.since_boot + kEvery;  // also in a walk: a time gone by would ask for frames all along
  if (engine::walk_under_way(store.farm(), store.device()) != nullptr) return false;
  const auto waits = storage::exchange_waits(store, seen_.folder);
  if (waits.ok() && !waits.value() && !seen_.failed && !seen_.lines.empty()) return false;
  pass(store, now);
  return true;
}

void ExchangeWatch::pass(storage::Store& store, const engine::Stamp& now) {
  const std::string day = engine::iso_date(engine::local_date(now));
  const auto done = storage::exchange(store, {seen_.folder, day});
  seen_.failed = !done.ok();
  seen_.when = engine::clock_time(now);
  seen_.lines = done.ok() ? lines_of(done.value()) : std::vector{done.status().message()};
}

std::optional<engine::Ms> ExchangeWatch::next() const {
  if (seen_.folder.empty()) return std::nullopt;
  return next_.value_or(engine::Ms{0});
}

}  // namespace ui
