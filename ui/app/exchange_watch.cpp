#include "ui/app/exchange_watch.h"

#include <fmt/format.h>

#include <utility>

#include "engine/farm/queries.h"
#include "engine/words/words.h"
#include "storage/bundle/exchange.h"

namespace ui {
namespace {

constexpr engine::Ms kEvery{60'000};
constexpr engine::Ms kFolderSilent{20'000};  // a slow network drive may take its time

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

ExchangeWatch::ExchangeWatch(const std::string& store_path, MakeFiles make_files)
    : store_path_(store_path), make_files_(std::move(make_files)) {
  if (!make_files_) make_files_ = [] { return std::make_unique<storage::DiskFiles>(); };
  seen_.folder = storage::exchange_folder(store_path);
}

ExchangeWatch::~ExchangeWatch() {
  calls_ = {};
  pass_.wait(std::chrono::seconds(1));
}

engine::Status ExchangeWatch::use(const std::string& folder) {
  engine::Status kept = storage::keep_exchange_folder(store_path_, folder);
  if (!kept.ok()) return kept;
  seen_ = {.folder = folder};
  calls_ = {};  // the pass in the other folder, if there is one, ends at its next call
  pass_ = {};
  look_now();
  return {};
}

bool ExchangeWatch::turn(storage::Store& store, const engine::Stamp& now) {
  if (seen_.folder.empty()) return false;
  const bool walking = engine::walk_under_way(store.farm(), store.device()) != nullptr;
  if (!walking) calls_.serve(store);
  if (const auto ended = pass_.take()) {
    end(*ended, now);
    return ended->has_value();
  }
  if (busy()) {
    if (now.since_boot - begun_ >= kFolderSilent && !calls_.waited_for()) {
      seen_.failed = true;
      seen_.when = engine::clock_time(now);
      seen_.lines = {"The folder does not answer. It is looked into again when it does."};
    }
    return false;
  }
  if (next_ && now.since_boot < *next_) return false;
  next_ = now.since_boot + kEvery;  // also in a walk: a time gone by would ask for frames all along
  if (!walking) begin(now);
  return false;
}

void ExchangeWatch::begin(const engine::Stamp& now) {
  begun_ = now.since_boot;
  const bool in_any_case = seen_.failed || seen_.lines.empty();
  const std::string day = engine::iso_date(engine::local_date(now));
  pass_.start([on_store = calls_.for_thread(), make_files = make_files_, folder = seen_.folder, day,
               in_any_case]() -> Ended {
    const auto files = make_files();
    const auto waits = storage::exchange_waits(on_store, *files, folder);
    if (waits.ok() && !waits.value() && !in_any_case) return std::nullopt;
    return storage::exchange(on_store, *files, {folder, day});
  });
}

void ExchangeWatch::end(const Ended& ended, const engine::Stamp& now) {
  if (!ended) return;
  seen_.failed = !ended->ok();
  seen_.when = engine::clock_time(now);
  seen_.lines = ended->ok() ? lines_of(ended->value()) : std::vector{ended->status().message()};
}

void ExchangeWatch::settle(storage::Store& store) {
  constexpr int kMostMs = 60'000;
  for (int ms = 0; busy() && !pass_.wait(std::chrono::milliseconds(1)) && ms < kMostMs; ++ms) {
    if (engine::walk_under_way(store.farm(), store.device()) != nullptr) return;
    calls_.serve(store);
  }
}

std::optional<engine::Ms> ExchangeWatch::next() const {
  if (seen_.folder.empty()) return std::nullopt;
  return next_.value_or(engine::Ms{0});
}

}  // namespace ui
