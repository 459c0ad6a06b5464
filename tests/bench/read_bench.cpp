// tests/bench/read_bench.cpp -- how long a sheet of 20,000 rows takes from text to durable journal,
// beside a plain parse of the same bytes by the CSV library alone.
//
//     read_bench [ROWS] [FOLDER]
#include <csv.h>
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>

#include "storage/disk/random.h"
#include "storage/sheets/spreadsheet.h"
#include "storage/store/store.h"

namespace {

using Clock = std::chrono::steady_clock;

double ms_since(Clock::time_point start) {
  return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

std::string colonies(int rows) {
  std::string out = "Yard,Hive,Brood boxes,Supers,East (m),North (m),Queen,Notes\r\n";
  for (int i = 0; i < rows; ++i)
    out += fmt::format("Yard {:03},H{},{},{},{}.5,-{}.25,\"blue, marked\",row {}\r\n", i / 40, i,
                       1 + i % 3, i % 2 ? "yes" : "no", i % 40, i % 7, i);
  return out;
}

std::string counts(int rows) {
  std::string out = "Yard,Hive,Date,Method,Mites,Bees\r\n";
  for (int i = 0; i < rows; ++i)
    out += fmt::format("Yard {:03},H{},2026-08-{:02},alcohol wash,{},300\r\n", i / 40, i,
                       1 + i % 19, i % 13);
  return out;
}

double plain_parse(const std::string& text, std::size_t& cells) {
  const auto start = Clock::now();
  csv_parser parser;
  csv_init(&parser, 0);
  const auto count = [](void*, std::size_t, void* to) { ++*static_cast<std::size_t*>(to); };
  (void)csv_parse(&parser, text.data(), text.size(), count, nullptr, &cells);
  (void)csv_fini(&parser, count, nullptr, &cells);
  csv_free(&parser);
  return ms_since(start);
}

engine::Status take_in(storage::Store& store, const std::string& name, const std::string& text) {
  const auto today = std::chrono::year{2026} / 8 / 20;
  std::size_t cells = 0;
  const double plain = plain_parse(text, cells);
  const auto start = Clock::now();
  const auto reading = storage::read_spreadsheet(store.farm(), text, today);
  if (!reading.ok()) return reading.status();
  const double read = ms_since(start);
  engine::Stamp stamp;
  stamp.at = engine::days(today);
  const auto events = store.next_all(stamp, reading.value().events);
  if (auto done = store.append_all(events); !done.ok()) return done;
  const double all = ms_since(start);
  fmt::print("{}: {} rows, {} kB, {} events, {} refused\n", name,
             reading.value().report.rows.size(), text.size() / 1024, events.size(),
             reading.value().report.count(storage::RowFate::Refused));
  fmt::print("  parse alone {:.1f} ms ({} cells); read {:.0f} ms; read and append {:.0f} ms\n",
             plain, cells, read, all);
  return {};
}

engine::Status run(int rows, const std::string& file) {
  storage::JournalOptions options;
  options.device = engine::uuid_text(storage::IdMaker(2)(1));
  const auto sheets = {std::pair{"colonies", colonies(rows)},
                       {"colonies again", colonies(rows)},
                       {"counts", counts(rows)}};
  {
    auto store = storage::Store::open(file, options);
    if (!store.ok()) return store.status();
    for (const auto& [name, text] : sheets)
      if (auto done = take_in(store.value(), name, text); !done.ok()) return done;
  }
  const auto start = Clock::now();
  const auto again = storage::Store::open(file, options);
  if (!again.ok()) return again.status();
  fmt::print("open and replay {} events: {:.0f} ms\n", again.value().farm().log.size(),
             ms_since(start));
  return {};
}

}  // namespace

int main(int argc, char** argv) {
  namespace fs = std::filesystem;
  const int rows = argc > 1 ? std::atoi(argv[1]) : 20'000;
  const fs::path folder =
      (argc > 2 ? fs::path(argv[2]) : fs::temp_directory_path()) / "duskwalk-read-bench";
  fs::remove_all(folder);
  const engine::Status done = run(rows, (folder / "store").string());
  fs::remove_all(folder);
  if (!done.ok()) fmt::print(stderr, "{}\n", done.message());
  return done.ok() ? 0 : 1;
}
