#include "storage/disk/held_folder.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <utility>

namespace storage {
namespace {

constexpr int kAsFolder = O_RDONLY | O_DIRECTORY | O_CLOEXEC;

int device_of(int fd, std::uint64_t& device) {
  struct stat s {};
  if (::fstat(fd, &s) != 0) return errno;
  device = s.st_dev;
  return 0;
}

}  // namespace

HeldFolder::~HeldFolder() {
  if (fd_ >= 0) ::close(fd_);
}

HeldFolder::HeldFolder(HeldFolder&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)), device_(other.device_) {}

HeldFolder& HeldFolder::operator=(HeldFolder&& other) noexcept {
  std::swap(fd_, other.fd_);
  std::swap(device_, other.device_);
  return *this;
}

int HeldFolder::open(const std::string& path, HeldFolder& out) {
  HeldFolder held(::open(path.c_str(), kAsFolder), 0);
  if (held.fd_ < 0) return errno;
  if (const int err = device_of(held.fd_, held.device_)) return err;
  out = std::move(held);
  return 0;
}

int HeldFolder::below(const std::string& path, HeldFolder& out) const {
  HeldFolder at(::openat(fd_, ".", kAsFolder), device_);
  if (at.fd_ < 0) return errno;
  for (std::size_t from = 0; from < path.size();) {
    const std::size_t slash = std::min(path.find('/', from), path.size());
    const std::string name = path.substr(from, slash - from);
    from = slash + 1;
    if (name.empty() || name == ".") continue;
    if (name == "..") return EXDEV;
    HeldFolder next(::openat(at.fd_, name.c_str(), kAsFolder | O_NOFOLLOW), device_);
    if (next.fd_ < 0) return errno;
    std::uint64_t device = 0;
    if (const int err = device_of(next.fd_, device)) return err;
    if (device != device_) return EXDEV;
    at = std::move(next);
  }
  out = std::move(at);
  return 0;
}

}  // namespace storage
