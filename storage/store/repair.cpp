#include "storage/store/repair.h"

#include <fmt/format.h>

#include <filesystem>

#include "storage/bundle/exchange_notes.h"
#include "storage/disk/flush.h"
#include "storage/journal/store_probe.h"
#include "storage/store/checkpoint.h"

namespace storage {
namespace {

namespace fs = std::filesystem;

std::string free_name(const std::string& wished) {
  std::string name = wished;
  std::error_code error;
  for (int n = 2; fs::exists(name, error); ++n) name = fmt::format("{}-{}", wished, n);
  return name;
}

Status failed(const std::string& path, const std::error_code& error) {
  return {Code::Failed, fmt::format("The store {}: {}.", path, error.message())};
}

// The damaged files under their new name too: first copied, so that at no moment one is missing.
Status keep(const std::string& path, const std::string& kept) {
  const std::pair<std::string, std::string> files[] = {
      {path, kept}, {wal_path(path), wal_path(kept)}, {tip_path(path), tip_path(kept)}};
  for (const auto& [from, to] : files) {
    std::error_code error;
    if (!fs::exists(from, error)) continue;
    fs::copy_file(from, to, error);
    if (error) return failed(to, error);
    if (Status flushed = flush_path(to); !flushed.ok()) return flushed;
  }
  return {};
}

// SQLite would take the damaged store's log for the new one's: it goes before the new one comes. So
// do the notes of what was read from an exchange folder: the new store lacks some of that.
Status replace(const std::string& path, const std::string& fresh) {
  std::error_code error;
  for (const std::string& beside :
       {wal_path(path), tip_path(path), checkpoint_path(path), exchange_notes_path(path)})
    fs::remove(beside, error);
  fs::rename(fresh, path, error);
  if (error) return failed(path, error);
  return flush_path(fs::absolute(path).parent_path().string());
}

void remove_all_of(const std::string& store) {
  std::error_code ignored;
  for (const std::string& file :
       {store, wal_path(store), tip_path(store), checkpoint_path(store), store + "-shm"})
    fs::remove(file, ignored);
}

// Closed again, so that it is one file.
Result<std::int64_t> rescue_to(const Journal& damaged, const std::string& fresh,
                               const std::string& new_device) {
  JournalOptions options = damaged.options();
  options.device = new_device;
  options.create = true;
  options.ballast_bytes = 0;
  options.checkpoint_from = 0;
  options.proven.reset();
  const auto made = rescue(damaged, fresh, options);
  if (!made.ok()) return made.status();
  return made.value().size();
}

// Closed first: at its end SQLite looks after the log of that name, which must not be the new
// one's.
Status exchange_for(Store& store, const std::string& fresh, const std::string& kept) {
  const std::string path = store.journal().path();
  JournalOptions options = store.journal().options();
  options.proven.reset();
  { const Store closed = std::move(store); }
  const Status replaced = replace(path, fresh);
  auto opened = Store::open(path, options);
  if (!opened.ok()) opened = Store::open(kept, options);
  store = std::move(opened).value();
  return replaced;
}

}  // namespace

Result<Mended> mend(Store& store, const std::string& mark, const std::string& new_device) {
  if (!store.journal().damage())
    return Status(Code::BadInput, "Every byte of this store is whole: there is nothing to mend.");
  const std::string path = store.journal().path(), fresh = path + ".anew";
  const std::string kept = free_name(path + "." + mark);
  remove_all_of(fresh);
  const auto entries = rescue_to(store.journal(), fresh, new_device);
  Status done = entries.status();
  if (done.ok()) done = keep(path, kept);
  if (done.ok()) done = exchange_for(store, fresh, kept);
  remove_all_of(fresh);
  if (!done.ok()) return done;
  return Mended{entries.value(), kept};
}

}  // namespace storage
