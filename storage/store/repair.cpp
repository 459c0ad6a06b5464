#include "storage/store/repair.h"

#include <fmt/format.h>

#include <filesystem>
#include <utility>
#include <vector>

#include "storage/disk/flush.h"
#include "storage/disk/paths.h"
#include "storage/disk/whole_file.h"
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

using FromTo = std::pair<std::string, std::string>;

std::vector<FromTo> files_of(const std::string& path, const std::string& to) {
  return {{path, to}, {wal_path(path), wal_path(to)}, {tip_path(path), tip_path(to)}};
}

// The locked files under their new name too: first copied, so that at no moment one is missing.
Status keep(const std::string& path, const std::string& kept) {
  for (const auto& [from, to] : files_of(path, kept)) {
    std::error_code error;
    if (!fs::exists(from, error)) continue;
    if (Status copied = copy_whole_file(from, to); !copied.ok()) return copied;
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
  if (store.writable().ok())
    return Status(Code::BadInput, "This store can be written as it is: there is nothing to mend.");
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

Result<std::string> set_aside(const std::string& store_path, const std::string& mark) {
  const std::string kept = free_name(store_path + "." + mark);
  std::error_code error;
  if (fs::is_directory(store_path, error))
    return {Code::BadInput, fmt::format("The store {}: this is a folder, no store.", store_path)};
  for (const std::string& anew : {checkpoint_path(store_path), exchange_notes_path(store_path)})
    fs::remove(anew, error);
  for (const auto& [from, to] : files_of(store_path, kept)) {
    error.clear();
    if (fs::symlink_status(from, error).type() == fs::file_type::not_found) continue;
    fs::rename(from, to, error);
    if (error) return failed(from, error);
  }
  const Status flushed = flush_path(fs::absolute(store_path).parent_path().string());
  return flushed.ok() ? Result<std::string>(kept) : flushed;
}

Status copy_as_it_is(const std::string& store_path, const std::string& to) {
  for (const auto& [from, there] : files_of(store_path, to))
    if (std::error_code error; fs::exists(there, error))
      return {Code::BadInput, fmt::format("The copy {}: a file of that name exists.", there)};
  const Status copied = keep(store_path, to);
  if (!copied.ok()) remove_all_of(to);
  return copied;
}

}  // namespace storage
