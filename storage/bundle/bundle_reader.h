// storage/bundle/bundle_reader.h -- what the bundles below some folders bring for a merge. Changes
// nothing.
//
// Each bundle is checked (storage/bundle/bag.h) and each entry by its own hash, so that of a
// damaged bundle what is whole is still taken. Where a bundle has signatures (earlier versions
// wrote none) they are checked too: the entries of a tablet with a bad one are left out and named.
// Links are never followed, nothing outside the folders is opened, and no line, file or folder tree
// can be so large that it fills the memory.
#pragma once
#include <string>
#include <vector>

#include "storage/disk/files.h"
#include "storage/disk/progress.h"
#include "storage/journal/record.h"
#include "storage/trust/signature.h"

namespace storage {

struct Intake {
  std::vector<Sealed> events;         // whole ones, sorted by device and number, each once
  std::vector<Signature> signatures;  // that hold, each of an entry among these
  std::size_t bundles = 0;            // found
  std::size_t whole = 0;              // of those
  std::vector<std::string> lines;     // one for each thing that was wrong, for the keeper
};

// Looks into each folder and those below it; one that holds bagit.txt is a bundle. One that is
// being written (".part-") is left alone. NotFound: one of `folders` is none.
[[nodiscard]] Result<Intake> read_bundles(Files& files, const std::vector<std::string>& folders,
                                          const Progress& progress = {});
[[nodiscard]] Result<Intake> read_bundles(const std::vector<std::string>& folders,
                                          const Progress& progress = {});

}  // namespace storage
