// What a generated operation of 2,000 colonies, 60 yards, 6 tablets, 10 years and 1,000,000 entries
// costs: merging its bundles, opening by checkpoint and without, striking, one year's register, a
// frame of each page. In the same run and over the same bytes: a plain SELECT of every row and a
// plain copy of the file.
//
//   scale_bench FOLDER [EVENTS]     makes FOLDER/stick and FOLDER/office.journal, some 2 GB
//
// Each step is a process of its own, so that its peak memory is its own.
#include <fmt/format.h>
#include <spawn.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>

#include "engine/register/register.h"
#include "engine/words/contradictions.h"
#include "engine/words/words.h"
#include "storage/bundle/bag.h"
#include "storage/bundle/bundle_reader.h"
#include "storage/journal/events_jsonl.h"
#include "storage/register/register_files.h"
#include "storage/store/checkpoint.h"
#include "storage/store/store.h"
#include "tests/bench/operation.h"
#include "tests/bench/scale_screens.h"

extern char** environ;

namespace {

namespace fs = std::filesystem;

template <class Work>
double seconds(Work work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

int fail(const std::string& why) {
  fmt::print(stderr, "{}\n", why);
  return 1;
}

std::string store_in(const std::string& folder) { return folder + "/office.journal"; }

storage::JournalOptions options() {
  storage::JournalOptions o;
  o.device = "0191a2b3-c4d5-7e6f-8a9b-0c1d2e3f4a5b";
  return o;
}

// One bundle a tablet and year's worth, as they would come in.
int make(const std::string& folder, std::int64_t events) {
  constexpr std::size_t kOfOneBundle = 25'000;
  std::map<std::string, std::vector<storage::Sealed>> pending;
  fs::create_directories(folder + "/stick");
  int bundles = 0;
  bool ok = true;
  const auto put = [&](std::vector<storage::Sealed>& entries) {
    storage::BagRequest request;
    request.parent = folder + "/stick";
    request.device_short = entries.front().record.device.substr(28);
    request.day = request.bagging_date = "2025-01-01";
    request.payload = {{"events.jsonl", storage::events_jsonl(entries)}};
    ok = ok && storage::write_bag(request).ok();
    ++bundles;
    entries.clear();
  };
  operation::Size size;
  size.events = events;
  std::int64_t made = 0;
  const double took = seconds([&] {
    made = operation::generate(size, [&](const storage::Sealed& s) {
      auto& mine = pending[s.record.device];
      mine.push_back(s);
      if (mine.size() == kOfOneBundle) put(mine);
    });
    for (auto& [device, entries] : pending)
      if (!entries.empty()) put(entries);
  });
  fmt::print("made {} entries in {} bundles: {:.1f} s\n", made, bundles, took);
  return ok ? 0 : fail("a bundle could not be written");
}

int merge(const std::string& folder) {
  storage::Intake intake;
  const double read_s =
      seconds([&] { intake = storage::read_bundles({folder + "/stick"}).value(); });
  const auto count = intake.events.size();
  double merge_s = 0;
  std::string wrong;
  {
    auto store = storage::Store::open(store_in(folder), options());
    if (!store.ok()) return fail(store.status().message());
    merge_s = seconds([&] {
      const auto merged = store.value().merge(std::move(intake.events));
      if (!merged.ok()) wrong = merged.status().message();
    });
    fmt::print(
        "merge of {} entries: {:.1f} s (reading and checking the bundles {:.1f} s, taking in "
        "and folding {:.1f} s); log {} entries, state {:016x}\n",
        count, read_s + merge_s, read_s, merge_s, store.value().farm().log.size(),
        engine::state_hash(store.value().farm()));
  }
  return wrong.empty() ? 0 : fail(wrong);
}

int open(const std::string& folder, bool cold) {
  if (cold) fs::remove(storage::checkpoint_path(store_in(folder)));
  engine::Result<storage::Store> store = engine::Status(engine::Code::Failed, "");
  const double took = seconds([&] { store = storage::Store::open(store_in(folder), options()); });
  if (!store.ok()) return fail(store.status().message());
  if (!store.value().damage().empty()) return fail(store.value().damage());
  fmt::print("{}: {:.2f} s for {} entries\n",
             cold ? "cold rebuild, checkpoint written" : "open by checkpoint", took,
             store.value().farm().log.size());
  return 0;
}

int hash(const std::string& folder) {
  auto store = storage::Store::open(store_in(folder), options());
  if (!store.ok()) return fail(store.status().message());
  fmt::print("state {:016x}\n", engine::state_hash(store.value().farm()));
  return 0;
}

int strike(const std::string& folder) {
  auto opened = storage::Store::open(store_in(folder), options());
  if (!opened.ok()) return fail(opened.status().message());
  storage::Store& store = opened.value();
  engine::Stamp now = store.farm().log.back()->event.stamp;
  const auto strikes = [&](const char* name, auto is_it) {
    for (std::size_t i = store.farm().log.size(); i-- > 0;) {
      const engine::Entry e = store.farm().log.copy(i);
      engine::Event event = store.next(now, engine::EntryStruck{e.event.ref, "bench"});
      if (!e.counts() || !is_it(i, e) ||
          engine::why_not(store.farm(), event) != engine::Refusal::None)
        continue;
      const double took = seconds([&] { (void)store.append(event); });
      fmt::print("strike of {} ({} entries before the end): {:.1f} ms\n", name,
                 store.farm().log.size() - i, 1e3 * took);
      return;
    }
  };
  const double note = seconds([&] {
    (void)store.append(store.next(now, engine::NoteWritten{{}, {}, "bench"}));
  });
  fmt::print("one entry: {:.1f} ms\n", 1e3 * note);
  const std::size_t end = store.farm().log.size();
  const auto set = [](const engine::Entry& e) {
    return std::holds_alternative<engine::VaporizerSet>(e.event.body);
  };
  strikes("the last setting", [&](std::size_t, const auto& e) { return set(e); });
  strikes("the last setting again", [&](std::size_t, const auto& e) { return set(e); });
  strikes("a setting a month ago",
          [&](std::size_t i, const auto& e) { return i + 10'000 < end && set(e); });
  strikes("a count five years ago", [&](std::size_t i, const auto& e) {
    return i < end / 2 && std::holds_alternative<engine::CountTaken>(e.event.body);
  });
  strikes("a setting five years ago",
          [&](std::size_t i, const auto& e) { return i < end / 2 && set(e); });
  return 0;
}

int year(const std::string& folder) {
  auto store = storage::Store::open(store_in(folder), options());
  if (!store.ok()) return fail(store.status().message());
  const engine::Farm& farm = store.value().farm();
  const int last = static_cast<int>(engine::local_date(farm.log.back()->event.stamp).year()) - 1;
  const engine::RegisterQuery query{engine::Date{std::chrono::year{last} / 1 / 1},
                                    engine::Date{std::chrono::year{last} / 12 / 31},
                                    {}};
  std::vector<engine::RegisterRow> rows;
  std::string pdf;
  const double rows_s = seconds([&] { rows = engine::register_rows(farm, query); });
  const double pdf_s =
      seconds([&] { pdf = storage::register_pdf(rows, storage::head_of(farm, query, "bench")); });
  const double all_s = seconds([&] { (void)engine::contradictions(farm).size(); });
  fmt::print(
      "register of {}: {} rows found in {:.2f} s, PDF of {:.1f} MB in {:.2f} s; "
      "contradictions looked for in {:.2f} s\n",
      last, rows.size(), rows_s, static_cast<double>(pdf.size()) / 1e6, pdf_s, all_s);
  return 0;
}

int screens(const std::string& folder) {
  auto store = storage::Store::open(store_in(folder), options());
  if (!store.ok()) return fail(store.status().message());
  operation::measure_screens(store.value().farm());
  return 0;
}

int beside(const std::string& folder) {
  const std::string store = store_in(folder), copy = folder + "/copy";
  const double copy_s = seconds([&] {
    std::ifstream from(store, std::ios::binary);
    std::ofstream to(copy, std::ios::binary);
    to << from.rdbuf();
  });
  const auto bytes = static_cast<double>(fs::file_size(copy));
  std::int64_t rows = 0, sum = 0;
  const double scan_s = seconds([&] {
    sqlite3* db = nullptr;
    sqlite3_stmt* all = nullptr;
    sqlite3_open(copy.c_str(), &db);
    sqlite3_exec(db, "PRAGMA locking_mode = EXCLUSIVE", nullptr, nullptr, nullptr);
    sqlite3_prepare_v2(db, "SELECT * FROM events ORDER BY arrival", -1, &all, nullptr);
    while (sqlite3_step(all) == SQLITE_ROW) {
      ++rows;
      sum += sqlite3_column_bytes(all, 10);
    }
    sqlite3_finalize(all);
    sqlite3_close(db);
  });
  fs::remove(copy);
  fmt::print(
      "beside it: plain copy of the store ({:.0f} MB) {:.2f} s; plain SELECT of {} rows ({:.0f} "
      "MB of text) {:.2f} s; checkpoint {:.0f} MB\n",
      bytes / 1e6, copy_s, rows, static_cast<double>(sum) / 1e6, scan_s,
      static_cast<double>(fs::file_size(storage::checkpoint_path(store))) / 1e6);
  return 0;
}

int step(const std::string& name, const std::string& folder, std::int64_t events) {
  if (name == "make") return make(folder, events);
  if (name == "merge") return merge(folder);
  if (name == "cold") return open(folder, true);
  if (name == "open") return open(folder, false);
  if (name == "hash") return hash(folder);
  if (name == "strike") return strike(folder);
  if (name == "year") return year(folder);
  if (name == "screens") return screens(folder);
  return beside(folder);
}

// This program again for one step; prints its peak memory.
int run(const char* self, std::string name, std::string folder, std::string events) {
  std::string program = self;
  char* const argv[] = {program.data(), name.data(), folder.data(), events.data(), nullptr};
  pid_t child = 0;
  if (posix_spawn(&child, "/proc/self/exe", nullptr, nullptr, argv, environ) != 0)
    return fail("a step could not be started");
  int status = 0;
  rusage used{};
  if (wait4(child, &status, 0, &used) != child || status != 0) return fail(name + " failed");
  fmt::print("  {}: {:.2f} s of processor, peak memory {:.0f} MB\n", name,
             static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
                 static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec) / 1e6,
             static_cast<double>(used.ru_maxrss) / 1024);
  std::fflush(stdout);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 4 && argv[2][0] != 0) return step(argv[1], argv[2], std::stoll(argv[3]));
  if (argc < 2) return fail("scale_bench FOLDER [EVENTS]");
  const std::string folder = argv[1], events = argc > 2 ? argv[2] : "1000000";
  for (const char* name : {"make", "merge", "beside", "cold", "open", "open", "hash", "year",
                           "screens", "strike", "open"})
    if (run(argv[0], name, folder, events) != 0) return 1;
  return 0;
}
