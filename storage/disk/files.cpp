#include "storage/disk/files.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>

namespace storage {
namespace {

constexpr int kMostDepth = 16;  // of a tree we remove; ours are 3 deep

// The result of a system call as 0 or errno, called again after an interrupting signal.
template <class Call>
int outcome(Call call) {
  for (;;) {
    if (call() >= 0) return 0;
    if (errno != EINTR) return errno;
  }
}

// Some file systems (several FUSE ones) cannot sync a folder or give advice; syncfs and the
// reading back do the work there.
bool not_offered(int err) { return err == EINVAL || err == ENOSYS || err == ENOTSUP; }

int open_flags(const std::string& path, int flags, int& fd) {
  return outcome([&] { return fd = ::open(path.c_str(), flags | O_CLOEXEC, 0644); });
}

int remove_below(Files& files, const std::string& path, int depth) {
  if (depth > kMostDepth) return ELOOP;
  std::vector<std::string> names;
  int first = files.list(path, names);
  for (const std::string& name : names) {
    const std::string child = path + "/" + name;
    FileInfo info;
    int err = files.info(child, info);
    if (err == 0 && info.kind == FileKind::Folder)
      err = remove_below(files, child, depth + 1);
    else if (err == 0)
      err = files.remove_file(child);
    if (first == 0) first = err;
  }
  const int err = files.remove_folder(path);
  return first != 0 ? first : err;
}

}  // namespace

int DiskFiles::room(const std::string& path, Room& out) {
  struct statvfs s {};
  if (const int err = outcome([&] { return ::statvfs(path.c_str(), &s); })) return err;
  const std::uint64_t unit = s.f_frsize != 0 ? s.f_frsize : s.f_bsize;
  out = {s.f_bavail * unit, s.f_blocks * unit, unit, (s.f_flag & ST_RDONLY) != 0};
  return 0;
}

int DiskFiles::info(const std::string& path, FileInfo& out) {
  out = {};
  struct stat s {};
  const int err = outcome([&] { return ::lstat(path.c_str(), &s); });
  if (err == ENOENT || err == ENOTDIR) return 0;
  if (err != 0) return err;
  out.kind = S_ISREG(s.st_mode)   ? FileKind::Regular
             : S_ISDIR(s.st_mode) ? FileKind::Folder
                                  : FileKind::Other;
  out.size = s.st_size > 0 ? static_cast<std::uint64_t>(s.st_size) : 0;
  out.device = s.st_dev;
  return 0;
}

int DiskFiles::list(const std::string& path, std::vector<std::string>& out) {
  out.clear();
  DIR* folder = ::opendir(path.c_str());
  if (folder == nullptr) return errno;
  errno = 0;
  while (const dirent* entry = ::readdir(folder)) {
    const std::string name = entry->d_name;
    if (name != "." && name != "..") out.push_back(name);
    errno = 0;
  }
  const int err = errno;
  ::closedir(folder);
  std::sort(out.begin(), out.end());
  return err;
}

int DiskFiles::make_folder(const std::string& path) {
  return outcome([&] { return ::mkdir(path.c_str(), 0755); });
}

int DiskFiles::create(const std::string& path, int& fd) {
  return open_flags(path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW, fd);
}

int DiskFiles::open(const std::string& path, int& fd) {
  return open_flags(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK, fd);
}

int DiskFiles::write(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    ssize_t done = 0;
    if (const int err = outcome([&] { return done = ::write(fd, bytes.data(), bytes.size()); }))
      return err;
    if (done == 0) return EIO;
    bytes.remove_prefix(static_cast<std::size_t>(done));
  }
  return 0;
}

int DiskFiles::read(int fd, char* to, std::size_t most, std::size_t& got) {
  ssize_t done = 0;
  got = 0;
  if (const int err = outcome([&] { return done = ::read(fd, to, most); })) return err;
  got = static_cast<std::size_t>(done);
  return 0;
}

int DiskFiles::sync(int fd) {
  return outcome([&] { return ::fsync(fd); });
}

int DiskFiles::drop_cache(int fd) {
  const int err = ::posix_fadvise(fd, 0, 0, POSIX_FADV_DONTNEED);  // returns the error itself
  return not_offered(err) ? 0 : err;
}

// Linux has let go of the descriptor even after EINTR: never called twice.
int DiskFiles::close(int fd) { return ::close(fd) == 0 || errno == EINTR ? 0 : errno; }

int DiskFiles::sync_folder(const std::string& path) {
  int fd = -1;
  if (const int err = open_flags(path, O_RDONLY | O_DIRECTORY, fd)) return err;
  const int err = outcome([&] { return ::fsync(fd); });
  ::close(fd);
  return not_offered(err) ? 0 : err;
}

int DiskFiles::sync_medium(const std::string& path) {
  int fd = -1;
  if (const int err = open_flags(path, O_RDONLY | O_DIRECTORY, fd)) return err;
  const int err = outcome([&] { return ::syncfs(fd); });
  ::close(fd);
  return err;
}

int DiskFiles::rename(const std::string& from, const std::string& to) {
  const int err = outcome(
      [&] { return ::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE); });
  if (!not_offered(err)) return err;
  FileInfo there;  // a file system without NOREPLACE: look first, our names are never shared
  if (const int seen = info(to, there)) return seen;
  if (there.kind != FileKind::None) return EEXIST;
  return outcome([&] { return ::rename(from.c_str(), to.c_str()); });
}

int DiskFiles::remove_file(const std::string& path) {
  return outcome([&] { return ::unlink(path.c_str()); });
}

int DiskFiles::remove_folder(const std::string& path) {
  return outcome([&] { return ::rmdir(path.c_str()); });
}

FileKind kind_of(Files& files, const std::string& path) {
  FileInfo info;
  return files.info(path, info) == 0 ? info.kind : FileKind::None;
}

int remove_tree(Files& files, const std::string& path) { return remove_below(files, path, 0); }

}  // namespace storage
