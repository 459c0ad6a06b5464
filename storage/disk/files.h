// storage/disk/files.h -- the few file operations a bundle needs, behind one interface.
//
// Every call returns 0 or the errno of the failure; nothing throws. `DiskFiles` is the real one.
// Tests put a wrapper in its place that fails at the n-th call, so that a full, write-protected or
// pulled stick is tried at every single step. Paths are bytes as the system knows them.
//
// Who writes or removes where others write too first calls hold(): below a held folder no link is
// followed and no other medium entered, at no part of a path (storage/disk/held_folder.h).
#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "storage/disk/held_folder.h"

namespace storage {

enum class FileKind { None, Regular, Folder, Other };  // Other: link, device, pipe, socket

struct FileInfo {
  FileKind kind = FileKind::None;
  std::uint64_t size = 0;    // bytes
  std::uint64_t device = 0;  // st_dev: which medium it lies on
  std::uint64_t inode = 0;   // st_ino: which of the medium's files and folders it is
  std::uint32_t owner = 0;   // st_uid
  std::int64_t written_ns = 0, changed_ns = 0;  // st_mtim and st_ctim: to tell whether it changed

  friend bool operator==(const FileInfo&, const FileInfo&) = default;
};

struct Room {
  std::uint64_t free = 0;   // bytes this user may still write
  std::uint64_t total = 0;  // bytes; 0 where the file system does not say
  std::uint64_t block = 0;  // bytes of the smallest piece a file takes
  bool read_only = false;
};

class Files {
 public:
  Files() = default;
  Files(const Files&) = delete;
  Files& operator=(const Files&) = delete;
  virtual ~Files() = default;

  // Holds the folder `path` open: from now on all that is asked below that path is looked up in
  // this very folder. One folder at a time; a second call lets go of the first.
  [[nodiscard]] virtual int hold(const std::string& path) = 0;
  // What `path` leads to now, links followed and whatever is held. A missing path: None.
  [[nodiscard]] virtual int leads_to(const std::string& path, FileInfo& out) = 0;
  [[nodiscard]] virtual int room(const std::string& path, Room& out) = 0;
  // What lies at `path` itself (a link is not followed). A missing path is no failure: None.
  [[nodiscard]] virtual int info(const std::string& path, FileInfo& out) = 0;
  // Names in a folder, sorted, without "." and "..".
  [[nodiscard]] virtual int list(const std::string& path, std::vector<std::string>& out) = 0;
  [[nodiscard]] virtual int make_folder(const std::string& path) = 0;
  // A new file for writing; EEXIST when there is one. The caller closes `fd`.
  [[nodiscard]] virtual int create(const std::string& path, int& fd) = 0;
  // For reading; a link at `path` is refused. The caller closes `fd`.
  [[nodiscard]] virtual int open(const std::string& path, int& fd) = 0;
  [[nodiscard]] virtual int write(int fd, std::string_view bytes) = 0;  // all of them
  [[nodiscard]] virtual int read(int fd, char* to, std::size_t most, std::size_t& got) = 0;
  [[nodiscard]] virtual int sync(int fd) = 0;
  // Lets go of cached pages, so that the next read asks the medium.
  [[nodiscard]] virtual int drop_cache(int fd) = 0;
  [[nodiscard]] virtual int close(int fd) = 0;  // `fd` is closed even when this fails
  [[nodiscard]] virtual int sync_folder(const std::string& path) = 0;
  // Flushes the whole file system that holds `path` (syncfs).
  [[nodiscard]] virtual int sync_medium(const std::string& path) = 0;
  // Never over something that is there (EEXIST).
  [[nodiscard]] virtual int rename(const std::string& from, const std::string& to) = 0;
  [[nodiscard]] virtual int remove_file(const std::string& path) = 0;
  [[nodiscard]] virtual int remove_folder(const std::string& path) = 0;  // an empty one
};

class DiskFiles : public Files {
 public:
  [[nodiscard]] int hold(const std::string& path) override;
  [[nodiscard]] int leads_to(const std::string& path, FileInfo& out) override;
  [[nodiscard]] int room(const std::string& path, Room& out) override;
  [[nodiscard]] int info(const std::string& path, FileInfo& out) override;
  [[nodiscard]] int list(const std::string& path, std::vector<std::string>& out) override;
  [[nodiscard]] int make_folder(const std::string& path) override;
  [[nodiscard]] int create(const std::string& path, int& fd) override;
  [[nodiscard]] int open(const std::string& path, int& fd) override;
  [[nodiscard]] int write(int fd, std::string_view bytes) override;
  [[nodiscard]] int read(int fd, char* to, std::size_t most, std::size_t& got) override;
  [[nodiscard]] int sync(int fd) override;
  [[nodiscard]] int drop_cache(int fd) override;
  [[nodiscard]] int close(int fd) override;
  [[nodiscard]] int sync_folder(const std::string& path) override;
  [[nodiscard]] int sync_medium(const std::string& path) override;
  [[nodiscard]] int rename(const std::string& from, const std::string& to) override;
  [[nodiscard]] int remove_file(const std::string& path) override;
  [[nodiscard]] int remove_folder(const std::string& path) override;

 private:
  // Where a path is looked up: in a folder, under a name.
  struct Spot {
    HeldFolder way;  // the folder above, when it is not the held one itself
    int folder = -1;
    std::string name;
    int no_link = 0;  // O_NOFOLLOW below the held folder
  };
  [[nodiscard]] int find(const std::string& path, Spot& out) const;
  [[nodiscard]] int open_at(const std::string& path, int flags, int& fd) const;

  std::string held_path_;
  HeldFolder held_;
};

// What lies at `path`; None also where that cannot be told.
[[nodiscard]] FileKind kind_of(Files& files, const std::string& path);

}  // namespace storage
