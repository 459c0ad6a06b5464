// storage/journal/journal_impl.h -- what a Journal is made of. Inside storage/ only.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>

#include "storage/disk/vfs_file.h"
#include "storage/journal/ballast.h"
#include "storage/journal/journal.h"
#include "storage/journal/journal_open.h"
#include "storage/journal/store_probe.h"

namespace storage {

// What goes into the store at once.
struct Batch {
  std::span<const Sealed> events;    // for the table events
  std::span<const ForkRow> sides{};  // for the rows of other sides
  std::string renewed{};             // the store's own id from now on; empty: as it was
};

struct Journal::Impl {
  Impl(std::string where, JournalOptions how, OpenedStore opened)
      : path(std::move(where)), options(std::move(how)), store(std::move(opened)) {
    if (store.db != nullptr && store.writable.ok()) insert = make_insert();
  }

  std::string path;
  JournalOptions options;
  OpenedStore store;
  std::unique_ptr<Query> insert;  // closed before the connection
  std::optional<VfsFile> tip;
  Ballast ballast;
  int commits_since_spent = 0;

  [[nodiscard]] std::unique_ptr<Query> make_insert() const {
    return std::make_unique<Query>(store.db.get(),
                                   "INSERT INTO events (" DUSKWALK_ROW_COLUMNS
                                   ") VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)");
  }
  [[nodiscard]] Head last(const std::string& device) const {
    const auto it = store.findings.held.find(device);
    return it == store.findings.held.end() ? Head{} : it->second.head;
  }

  // Every row that the query finds. Failed: one of them, or the file, cannot be read.
  Status take_rows(Query& query, const std::function<void(const Sealed&)>& take) const;
  int insert_row(std::int64_t arrival, const Sealed& s);
  int write(const Batch& batch);
  int write_rows(std::span<const Sealed> events);
  // Stores sealed events and takes note of them; gives up the ballast when there is no room.
  Status commit(const Batch& batch);
  void note_tip();
  void retry_ballast();
};

}  // namespace storage
