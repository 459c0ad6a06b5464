#include "tests/fuzz/small_store.h"

#include <fstream>
#include <iterator>

#include "storage/sheets/spreadsheet.h"
#include "tests/fuzz/folder.h"
#include "tests/fuzz/targets.h"

namespace fuzz {

storage::JournalOptions store_options() {
  storage::JournalOptions options;
  options.device = "0191a2b3-c4d5-7e6f-8a9b-0c1d2e3f4a5b";
  options.ballast_bytes = 0;
  options.checkpoint_from = 1;
  return options;
}

void add_sheet(storage::Store& store, const char* text) {
  const auto now = *engine::stamp_from_rfc3339("2026-08-20T19:00:00-07:00");
  auto reading = storage::read_spreadsheet(store.farm(), text, engine::local_date(now));
  must(reading.ok(), "the sheet is one");
  const auto events = store.next_all(now, std::move(reading.value().events));
  must(store.append_all(events).ok(), "what the sheet says is appended");
}

void make_store(const std::string& path) {
  auto store = storage::Store::open(path, store_options());
  must(store.ok(), "a new store opens");
  add_sheet(store.value(), "Yard,Colony,Boxes\nThistle Bank,B1,1\nThistle Bank,B2,2\n");
}

std::string path_of(const char* name) { return scratch() + "/" + name; }

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void spill(const std::string& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << bytes;
  must(file.flush().good(), "the scratch folder can be written");
}

}  // namespace fuzz
