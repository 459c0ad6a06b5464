// storage/store/repair.h -- how a tablet whose store is locked goes on, whatever locked it: damaged
// bytes, entries or a format of a later version, write protection, a file that cannot be opened.
// All that can be read goes into a new store under the old name; the locked files are kept as they
// are, beside it.
#pragma once
#include <string>

#include "storage/store/store.h"

namespace storage {

struct Mended {
  std::int64_t entries = 0;  // that could be read
  std::string kept;          // the locked store's new path; its other files are named after it
};

// `store` becomes the new one, at the old path and under the new device id; what is kept is called
// "PATH.MARK", with a number where that exists. `new_device`: a fresh UUID as text. BadInput: the
// store can be written as it is. After any failure (the disk is full, the folder write-protected)
// the locked store is where it was, and open.
[[nodiscard]] Result<Mended> mend(Store& store, const std::string& mark,
                                  const std::string& new_device);

// For what does not even open: its files get new names, "PATH.MARK" as above, so that a new store
// can be begun. Gives the new path. BadInput: a folder stands there.
[[nodiscard]] Result<std::string> set_aside(const std::string& store_path, const std::string& mark);

// The files of a store, of whatever it consists, as they are: `to` is the new store's path, which
// must not exist. For a locked store; of a whole one a backup is better (storage/journal/backup.h).
[[nodiscard]] Status copy_as_it_is(const std::string& store_path, const std::string& to);

}  // namespace storage
