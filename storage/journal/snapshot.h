// storage/journal/snapshot.h -- the store as it is now, as an open file without a name.
//
// For another program that only wants to look while this one has the store (look_server.h). Copied
// in steps on the journal's own connection, as a backup is; what is entered meanwhile is in it too.
// The file lies beside the store and loses its name as soon as SQLite has opened it, so that
// nothing of it can be left over. It is neither flushed nor read back: whoever gets it checks it as
// any store.
#pragma once
#include <memory>

#include "storage/journal/journal.h"

namespace storage {

class Snapshot {
 public:
  // The journal must stay open until the snapshot is done or gone; it may be moved.
  [[nodiscard]] static Result<Snapshot> begin(const Journal& journal);
  ~Snapshot();
  Snapshot(Snapshot&&) noexcept;
  Snapshot& operator=(Snapshot&&) noexcept;

  // Copies so many pages of 4096 bytes; true: done. After a failure no further step helps.
  [[nodiscard]] Result<bool> step(int pages = 256);
  [[nodiscard]] int fd() const;  // for reading, from any place; closed with the snapshot

 private:
  struct State;
  explicit Snapshot(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// What a killed program may have left in the moment before a snapshot lost its name.
void remove_left_snapshot(const std::string& store_path);

}  // namespace storage
