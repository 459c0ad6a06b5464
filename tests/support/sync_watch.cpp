// fsync is defined here and so found before the C library's; it tells, and then does flush.
#include "tests/support/sync_watch.h"

#include <limits.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace {

std::function<void(const std::string&)>& seer() {
  static std::function<void(const std::string&)> see;
  return see;
}

}  // namespace

SyncWatch::SyncWatch(std::function<void(const std::string&)> see) { seer() = std::move(see); }
SyncWatch::~SyncWatch() { seer() = nullptr; }

extern "C" int fsync(int fd) {
  if (seer()) {
    char path[PATH_MAX];
    const std::string link = "/proc/self/fd/" + std::to_string(fd);
    const ssize_t size = ::readlink(link.c_str(), path, sizeof path);
    seer()(size < 0 ? "?" : std::string(path, static_cast<std::size_t>(size)));
  }
  return static_cast<int>(::syscall(SYS_fsync, fd));
}
