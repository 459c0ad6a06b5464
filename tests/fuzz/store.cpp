#include "storage/store/store.h"

#include <filesystem>

#include "tests/fuzz/changes.h"
#include "tests/fuzz/small_store.h"
#include "tests/fuzz/targets.h"

namespace {

// The three files of a store that was killed: some entries are folded into it, some in its log.
struct Bytes {
  std::string store, log, tip;
};

Bytes killed() {
  const std::string path = fuzz::path_of("made.journal");
  fuzz::make_store(path);
  auto open = storage::Store::open(path, fuzz::store_options());
  fuzz::add_sheet(open.value(), "Yard,Colony,Date,Mites,Bees\nThistle Bank,B1,2026-08-19,4,300\n");
  return {fuzz::text_of(path), fuzz::text_of(path + "-wal"), fuzz::text_of(path + ".tip")};
}

void put(const std::string& path, const Bytes& bytes) {
  for (const char* beside : {"-journal", "-shm", ".checkpoint"})
    std::filesystem::remove(path + beside);
  fuzz::spill(path, bytes.store);
  fuzz::spill(path + "-wal", bytes.log);
  fuzz::spill(path + ".tip", bytes.tip);
}

}  // namespace

void fuzz::store(std::string_view bytes) {
  static const Bytes kKilled = killed();
  Bytes now = kKilled;
  change({&now.store, &now.log, &now.tip}, bytes);
  const std::string path = path_of("changed.journal");
  put(path, now);
  auto opened = storage::Store::open(path, store_options());
  if (!opened.ok()) {
    must(!opened.status().message().empty(), "a store that cannot be opened says why");
    must(text_of(path) == now.store, "a store that cannot be opened stays as it is");
    return;
  }
  storage::Store& store = opened.value();
  (void)store.journal().verify();
  if (store.damage().empty()) return add_sheet(store, "Yard,Notes\nNether Fold,gate is heavy\n");
  must(!store.append(store.next({}, engine::NoteWritten{})).ok(), "a damaged store takes no entry");
  must(text_of(path) == now.store, "a damaged store stays as it is");
}
