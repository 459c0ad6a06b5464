#include "storage/journal/store_probe.h"

#include "storage/disk/vfs_file.h"

namespace storage {
namespace {

std::string rollback_path(const std::string& path) { return path + "-journal"; }

// A store is made in one transaction with a rollback journal: its header (magic, records, nonce,
// pages before) then says that there were no pages before. Same source as wal_image.h, section 3.
bool from_nothing(const std::string& vfs, const std::string& path) {
  const std::string bytes = file_bytes(vfs, rollback_path(path), VfsKind::Side);
  return bytes.size() >= 20 && bytes.compare(16, 4, std::string(4, '\0')) == 0;
}

}  // namespace

std::string wal_path(const std::string& path) { return path + "-wal"; }
std::string tip_path(const std::string& path) { return path + ".tip"; }

std::optional<ProgressMark> read_tip(const std::string& vfs, const std::string& path) {
  return parse_tip(file_bytes(vfs, tip_path(path), VfsKind::Side));
}

Look look_at(const std::string& vfs, const std::string& path) {
  Look look;
  auto file = VfsFile::open(vfs, path, VfsKind::Store, FileUse::ReadWrite);
  if (file.ok()) {
    look.busy = !file.value().lock_shared();
    look.writable = file.value().writable();
    look.size = file.value().size();
    look.header = read_header(file.value().read(0, 100));
  }
  look.wal_size = file_size(vfs, wal_path(path));
  look.wal_there = file_exists(vfs, wal_path(path));
  for (const std::string& beside : {wal_path(path), rollback_path(path)})
    if (is_in_the_way(vfs, beside)) look.in_the_way = beside;
  look.tip_there = file_exists(vfs, tip_path(path));
  look.tip = read_tip(vfs, path);
  look.half_made = look.wal_size == 0 && !look.tip_there &&
                   file_size(vfs, rollback_path(path)) > 0 &&
                   (look.header.ours || from_nothing(vfs, path));
  return look;
}

}  // namespace storage
