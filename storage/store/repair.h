// storage/store/repair.h -- how a tablet whose store is damaged goes on: with all that can still be
// read, in a new store under the old name. The damaged files are kept as they are, beside it.
#pragma once
#include <string>

#include "storage/store/store.h"

namespace storage {

struct Mended {
  std::int64_t entries = 0;  // that could be read
  std::string kept;          // the damaged store's new path; its other files are named after it
};

// `store` becomes the new one, at the old path and under the new device id; what is kept is called
// "PATH.MARK", with a number where that exists. `new_device`: a fresh UUID as text. BadInput: the
// store's bytes are whole. After any failure (the disk is full, write-protected) the damaged store
// is where it was, and open.
[[nodiscard]] Result<Mended> mend(Store& store, const std::string& mark,
                                  const std::string& new_device);

}  // namespace storage
