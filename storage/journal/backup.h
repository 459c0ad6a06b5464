// storage/journal/backup.h -- a complete copy of the store in one file, and a store made from one.
//
// While the program runs, also in the middle of a walk: Backup copies in steps on the journal's own
// connection (SQLite's online backup), so that the screens go on between the steps and what is
// entered meanwhile is in the copy too. A screen calls begin(), then step() once a frame until
// it says done; part() is for the bar. Everything at once: Journal::backup_to.
//
// Restoring makes a new store under a new name and a new device id, so that what is entered from
// now on never takes the numbers of the tablet that was copied. Nothing is ever overwritten.
#pragma once
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "storage/journal/journal.h"

namespace storage {

class Backup {
 public:
  // `path` must not exist (BadInput); on a damaged store: its line. The journal must stay open
  // until the backup is done or gone; it may be moved.
  [[nodiscard]] static Result<Backup> begin(const Journal& journal, const std::string& path);
  ~Backup();  // an unfinished copy is removed
  Backup(Backup&&) noexcept;
  Backup& operator=(Backup&&) noexcept;

  // Copies so many pages of 4096 bytes. True: done, the copy was read back, flushed and has its
  // name (that last step reads all of it: some 0.3 s for 100,000 entries). After a failure nothing
  // of the copy is left and no further step helps.
  [[nodiscard]] Result<bool> step(int pages = 256);
  [[nodiscard]] double part() const;  // 0 to 1

 private:
  struct State;
  explicit Backup(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

struct Restored {
  std::int64_t events = 0;
  std::string was{};  // the id of the tablet that the backup is of
};

// Makes the store `path` from the backup `file`. `new_device`: a fresh UUID as text. BadInput: a
// file named `path` exists, or `file` is no backup; NotFound; Damaged: not all of it can be read
// (what is whole of it: rescue() in journal.h). After any failure there is no `path`.
[[nodiscard]] Result<Restored> restore_backup(const std::string& file, const std::string& path,
                                              const std::string& new_device);

// Every entry of the backup `file`, for Store::merge: how a tablet that runs already takes in what
// another one, or it itself before, held. A copy named after `scratch`, a path where the tablet may
// write, lies there meanwhile. NotFound; BadInput: no backup; Damaged.
[[nodiscard]] Result<std::vector<Sealed>> read_backup(const std::string& file,
                                                      const std::string& scratch);

}  // namespace storage
