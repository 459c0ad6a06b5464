#include "storage/disk/flush.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace storage {

engine::Status flush_path(const std::string& path) {
  const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  const int rc = fd < 0 ? -1 : ::fsync(fd);
  const int error = errno;
  if (fd >= 0) ::close(fd);
  if (rc == 0) return {};
  return {engine::Code::Failed, fmt::format("The copy {}: cannot be flushed to the disk ({}).",
                                            path, std::strerror(error))};
}

}  // namespace storage
