// ui/platform/file_handle.h -- owner of a file descriptor.
#pragma once
#include <unistd.h>

#include <utility>

namespace ui {

class FileHandle {
 public:
  FileHandle() = default;
  explicit FileHandle(int fd) : fd_(fd) {}
  FileHandle(FileHandle&& o) noexcept : fd_(std::exchange(o.fd_, -1)) {}
  FileHandle& operator=(FileHandle&& o) noexcept {
    std::swap(fd_, o.fd_);
    return *this;
  }
  ~FileHandle() {
    if (fd_ >= 0) ::close(fd_);
  }

  [[nodiscard]] int get() const { return fd_; }
  explicit operator bool() const { return fd_ >= 0; }

 private:
  int fd_ = -1;
};

}  // namespace ui
