#include "storage/journal/ballast.h"

#include "storage/disk/vfs_file.h"

namespace storage {

bool Ballast::make() {
  if (bytes_ == 0) return true;
  bool there = file_size(vfs_, path_) >= bytes_;
  if (!there) {
    auto file = VfsFile::open(vfs_, path_, VfsKind::Side, FileUse::Create);
    if (!file.ok()) return false;  // what lies there is none of ours
    there = file.value().allocate(bytes_);
  }
  // Half a ballast would only eat the room that is left.
  if (!there) remove_file(vfs_, path_);
  if (there) spent_ = false;
  return there;
}

bool Ballast::spend() {
  if (bytes_ == 0 || !file_exists(vfs_, path_)) return false;
  remove_file(vfs_, path_);
  spent_ = !file_exists(vfs_, path_);
  return spent_;
}

}  // namespace storage
