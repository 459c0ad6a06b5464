// storage/disk/vfs_file.h -- reading and writing a file through an SQLite VFS.
//
// The journal's own files (tip, ballast) and its look at a store before SQLite may touch it take
// this way for two reasons: tests put a disk of their own underneath, and on Linux closing a second
// descriptor of a locked file drops the lock, which the VFS knows and plain close() does not. On
// the real disk a file beside a store is opened as storage/disk/guarded_open.h says: a link or a
// pipe in its place is refused.
#pragma once
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

enum class VfsKind { Store, Side };  // Store: takes part in SQLite's locking
enum class FileUse { Read, ReadWrite, Create };

class VfsFile {
 public:
  // `vfs`: name of a registered VFS, "" for the default. NotFound when there is no such file.
  [[nodiscard]] static engine::Result<VfsFile> open(const std::string& vfs, const std::string& path,
                                                    VfsKind kind, FileUse use);
  ~VfsFile();
  VfsFile(VfsFile&&) noexcept;
  VfsFile& operator=(VfsFile&&) noexcept;

  [[nodiscard]] bool writable() const;  // false when the medium gave us reading only
  [[nodiscard]] bool lock_shared();     // false when another program holds the file
  [[nodiscard]] std::int64_t size() const;
  // What is there of the asked bytes; a block of 4096 that cannot be read comes as zeros.
  [[nodiscard]] std::string read(std::int64_t offset, std::size_t bytes) const;
  [[nodiscard]] std::string read_all() const;
  [[nodiscard]] bool write(std::int64_t offset, std::string_view bytes);
  [[nodiscard]] bool allocate(std::int64_t bytes);  // real blocks, so that they can be given back

 private:
  struct State;
  explicit VfsFile(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// Something that is no plain file lies where a file beside a store has its place.
[[nodiscard]] bool is_in_the_way(const std::string& vfs, const std::string& path);
// A file beside a store; on the real disk neither a link nor anything else counts.
[[nodiscard]] bool file_exists(const std::string& vfs, const std::string& path);
void remove_file(const std::string& vfs, const std::string& path);

// The size of a file, 0 when there is none.
[[nodiscard]] std::int64_t file_size(const std::string& vfs, const std::string& path);
[[nodiscard]] std::string file_bytes(const std::string& vfs, const std::string& path, VfsKind kind);

}  // namespace storage
