#include "storage/disk/files.h"

#include <dirent.h>
#include <fcntl.h>
#include <stdio.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <utility>

namespace storage {
namespace {

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

FileInfo info_of(const struct stat& s) {
  FileInfo info;
  info.kind = S_ISREG(s.st_mode)   ? FileKind::Regular
              : S_ISDIR(s.st_mode) ? FileKind::Folder
                                   : FileKind::Other;
  info.size = s.st_size > 0 ? static_cast<std::uint64_t>(s.st_size) : 0;
  info.device = s.st_dev;
  info.inode = s.st_ino;
  info.owner = s.st_uid;
  info.written_ns = s.st_mtim.tv_sec * 1'000'000'000LL + s.st_mtim.tv_nsec;
  info.changed_ns = s.st_ctim.tv_sec * 1'000'000'000LL + s.st_ctim.tv_nsec;
  return info;
}

int info_at(int folder, const std::string& name, int flags, FileInfo& out) {
  out = {};
  struct stat s {};
  const int err = outcome([&] { return ::fstatat(folder, name.c_str(), &s, flags); });
  if (err == ENOENT || err == ENOTDIR) return 0;
  if (err == 0) out = info_of(s);
  return err;
}

int names_in_folder(int fd, std::vector<std::string>& out) {
  DIR* const folder = ::fdopendir(fd);  // takes the descriptor
  if (folder == nullptr) {
    const int err = errno;
    ::close(fd);
    return err;
  }
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

}  // namespace

int DiskFiles::hold(const std::string& path) {
  HeldFolder held;
  if (const int err = HeldFolder::open(path, held)) return err;
  held_ = std::move(held);
  held_path_ = path;
  return 0;
}

int DiskFiles::leads_to(const std::string& path, FileInfo& out) {
  return info_at(AT_FDCWD, path, 0, out);
}

int DiskFiles::find(const std::string& path, Spot& out) const {
  out.folder = AT_FDCWD;
  out.name = path;
  if (held_.fd() < 0 || !path.starts_with(held_path_)) return 0;
  std::string below = path.substr(held_path_.size());
  if (!below.empty() && below[0] != '/' && !held_path_.ends_with('/')) return 0;
  below.erase(0, below.find_first_not_of('/'));
  out.no_link = O_NOFOLLOW;
  const std::size_t slash = below.rfind('/');
  out.name = below.empty() ? "." : below.substr(slash == below.npos ? 0 : slash + 1);
  out.folder = held_.fd();
  if (slash == below.npos) return 0;
  const int err = held_.below(below.substr(0, slash), out.way);
  out.folder = out.way.fd();
  return err;
}

int DiskFiles::open_at(const std::string& path, int flags, int& fd) const {
  Spot at;
  if (const int err = find(path, at)) return err;
  return outcome([&] {
    return fd = ::openat(at.folder, at.name.c_str(), flags | at.no_link | O_CLOEXEC, 0644);
  });
}

int DiskFiles::room(const std::string& path, Room& out) {
  struct statvfs s {};
  int fd = -1;
  if (const int err = open_at(path, O_PATH, fd)) return err;
  const int err = outcome([&] { return ::fstatvfs(fd, &s); });
  ::close(fd);
  if (err != 0) return err;
  const std::uint64_t unit = s.f_frsize != 0 ? s.f_frsize : s.f_bsize;
  out = {s.f_bavail * unit, s.f_blocks * unit, unit, (s.f_flag & ST_RDONLY) != 0};
  return 0;
}

int DiskFiles::info(const std::string& path, FileInfo& out) {
  out = {};
  Spot at;
  const int err = find(path, at);
  if (err == ENOENT || err == ENOTDIR) return 0;
  return err != 0 ? err : info_at(at.folder, at.name, AT_SYMLINK_NOFOLLOW, out);
}

int DiskFiles::list(const std::string& path, std::vector<std::string>& out) {
  out.clear();
  int fd = -1;
  if (const int err = open_at(path, O_RDONLY | O_DIRECTORY, fd)) return err;
  return names_in_folder(fd, out);
}

int DiskFiles::make_folder(const std::string& path) {
  Spot at;
  if (const int err = find(path, at)) return err;
  return outcome([&] { return ::mkdirat(at.folder, at.name.c_str(), 0755); });
}

int DiskFiles::create(const std::string& path, int& fd) {
  return open_at(path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW, fd);
}

int DiskFiles::open(const std::string& path, int& fd) {
  return open_at(path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK, fd);
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
  if (const int err = open_at(path, O_RDONLY | O_DIRECTORY, fd)) return err;
  const int err = outcome([&] { return ::fsync(fd); });
  ::close(fd);
  return not_offered(err) ? 0 : err;
}

int DiskFiles::sync_medium(const std::string& path) {
  int fd = -1;
  if (const int err = open_at(path, O_RDONLY | O_DIRECTORY, fd)) return err;
  const int err = outcome([&] { return ::syncfs(fd); });
  ::close(fd);
  return err;
}

int DiskFiles::rename(const std::string& from, const std::string& to) {
  Spot old, fresh;
  if (const int err = find(from, old)) return err;
  if (const int err = find(to, fresh)) return err;
  const char *const was = old.name.c_str(), *const is = fresh.name.c_str();
  const int err =
      outcome([&] { return ::renameat2(old.folder, was, fresh.folder, is, RENAME_NOREPLACE); });
  if (!not_offered(err)) return err;
  FileInfo there;  // a file system without NOREPLACE: look first, our names are never shared
  if (const int seen = info(to, there)) return seen;
  if (there.kind != FileKind::None) return EEXIST;
  return outcome([&] { return ::renameat(old.folder, was, fresh.folder, is); });
}

int DiskFiles::remove_file(const std::string& path) {
  Spot at;
  if (const int err = find(path, at)) return err;
  return outcome([&] { return ::unlinkat(at.folder, at.name.c_str(), 0); });
}

int DiskFiles::remove_folder(const std::string& path) {
  Spot at;
  if (const int err = find(path, at)) return err;
  return outcome([&] { return ::unlinkat(at.folder, at.name.c_str(), AT_REMOVEDIR); });
}

FileKind kind_of(Files& files, const std::string& path) {
  FileInfo info;
  return files.info(path, info) == 0 ? info.kind : FileKind::None;
}

}  // namespace storage
