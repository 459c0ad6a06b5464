// storage/bundle/exchange.h -- a folder that connects tablets and an office: bundles that turn up
// in it are taken in, and what no bundle in it holds yet is put out as a new one.
//
// Whatever moves files may stand behind the folder: a stick, a file-sync engine, a network drive.
// Bundles never change and their names carry their content's hash, so that they may arrive in any
// order and twice. One that is not whole (its files are still on the way) is left alone and read
// again when its files have changed. A bundle that somebody removes is put out again.
//
// What the bundles of the folder hold is noted in a file beside the store ("STORE.exchange"), so
// that each is read once. Whoever deletes that file loses only the time of reading them again.
//
// A folder may stall for as long as its file system likes. So a pass may run on a thread of its
// own: it reads and writes the folder there, and what it does on the store it hands to the store's
// own thread (OnStore). Now and then exchange_waits() (it only lists names), and exchange() when
// that says so.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "storage/disk/files.h"
#include "storage/store/store.h"

namespace storage {

struct ExchangePlace {
  std::string folder;
  std::string day;  // today, YYYY-MM-DD, by the tablet's clock: for the names of new bundles
  // Asked between two bundles: true ends the pass; what was taken in is kept.
  std::function<bool()> stopped = [] { return false; };
};

struct Exchanged {
  std::size_t taken = 0;             // bundles that were new and whole
  std::int64_t entries = 0;          // new ones of theirs
  std::vector<std::string> waiting;  // names of those that are not whole (yet)
  std::vector<std::string> put;      // names of the new ones, by this store
  std::vector<std::string> lines;    // for the keeper: forks, gaps, what could not be taken
};

// Runs the work on the store, on the thread that owns it, and returns when that is done. False: it
// was not run and never will be, because the store is closed; then the pass ends.
using OnStore = std::function<bool(const std::function<void(Store&)>& work)>;

// One pass: first in, then out. A failure Status (the folder is gone, full, write-protected; the
// store is damaged) leaves what was taken taken; the next pass does the rest.
[[nodiscard]] Result<Exchanged> exchange(Store& store, const ExchangePlace& place,
                                         const Progress& progress = {});
[[nodiscard]] Result<Exchanged> exchange(const OnStore& on_store, Files& files,
                                         const ExchangePlace& place, const Progress& progress = {});

// Whether a pass would find a bundle it has not read, miss one it has put out, or have something to
// put out. Cheap: of a bundle that is not whole it looks at names, sizes and times.
[[nodiscard]] Result<bool> exchange_waits(Store& store, const std::string& folder);
[[nodiscard]] Result<bool> exchange_waits(const OnStore& on_store, Files& files,
                                          const std::string& folder);

// The folder that this tablet watches; empty: none. It is noted beside the store
// ("STORE.exchange-folder") and not in the journal: other tablets have folders of their own.
[[nodiscard]] std::string exchange_folder(const std::string& store_path);
// Empty: none any more.
Status keep_exchange_folder(const std::string& store_path, const std::string& folder);

}  // namespace storage
