#include "storage/disk/guarded_open.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <mutex>
#include <string_view>

namespace storage {
namespace {

constexpr mode_t kOwnerOnly = 0600;

// Beside files, SQLite opens folders (to flush their names) and two devices, none of them to write.
bool may_be_used(const struct stat& s, std::string_view path, int flags) {
  if (S_ISREG(s.st_mode)) return true;
  if ((flags & O_ACCMODE) != O_RDONLY) return false;
  return S_ISDIR(s.st_mode) || path == "/dev/urandom" || path == "/dev/null";
}

// In place of SQLite's open(2). A file that was just made is empty; the mode is set once more
// because the umask may have taken the owner's own rights away.
int open_guarded(const char* path, int flags, int mode) {
  const bool makes = (flags & O_CREAT) != 0;
  const int fd = ::open(path, flags | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC,
                        makes ? kOwnerOnly : static_cast<mode_t>(mode));
  if (fd < 0) return fd;
  struct stat s {};
  const bool seen = ::fstat(fd, &s) == 0;
  if (!seen || !may_be_used(s, path, flags)) {
    ::close(fd);
    errno = EPERM;
    return -1;
  }
  if (makes && s.st_size == 0 && (s.st_mode & 0777) != kOwnerOnly && s.st_uid == ::geteuid())
    (void)::fchmod(fd, kOwnerOnly);
  return fd;
}

}  // namespace

void guard_sqlite_files() {
  static std::once_flag once;
  std::call_once(once, [] {
    sqlite3_vfs* const vfs = sqlite3_vfs_find("unix");
    if (vfs == nullptr || vfs->xSetSystemCall == nullptr) return;
    vfs->xSetSystemCall(vfs, "open", reinterpret_cast<sqlite3_syscall_ptr>(&open_guarded));
  });
}

}  // namespace storage
