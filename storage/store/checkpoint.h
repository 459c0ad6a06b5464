// storage/store/checkpoint.h -- the farm as it was after so many events, in a file beside the
// store, so that a store of a million events opens in a second. Inside storage/ only.
//
// Never trusted over the journal: it is used when this very program (its bytes) wrote it, its seal
// is made with the secret that the journal holds, and the journal still has, under the same hash,
// the newest event it stands on of every tablet. Anything else, and it is made anew from the
// journal. Whoever deletes the file loses nothing but a few seconds. It is no part of a backup or
// bundle. `duskwalk verify` replays everything without it and compares.
#pragma once
#include <optional>
#include <string>

#include "engine/farm/merge_order.h"
#include "storage/journal/journal.h"

namespace storage {

struct Checkpoint {
  Proven proven;  // its tip: device, arrivals and per device what the journal held
  engine::Farm farm;
  engine::Clocks clocks;
};

[[nodiscard]] std::string checkpoint_path(const std::string& store_path);

// Nothing: there is none of this program. Anybody may have written what is returned: nothing of it
// counts until the journal has accepted `proven`, and then complete() comes first.
[[nodiscard]] std::optional<Checkpoint> read_checkpoint(const std::string& vfs,
                                                        const std::string& store_path);

// Folds its last entries. False: they cannot be folded.
[[nodiscard]] bool complete(Checkpoint& checkpoint);

// Best effort, not flushed: a torn one is not used. False when it could not be written.
bool write_checkpoint(const std::string& vfs, const std::string& store_path,
                      const Checkpoint& checkpoint, const std::string& secret);

// Which program this is, as 32 bytes of its own file's hash; empty: it cannot be told, and no
// checkpoint is used.
[[nodiscard]] std::string program_identity();

}  // namespace storage
