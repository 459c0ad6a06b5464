// storage/disk/held_folder.h -- a folder held open by its descriptor, so that nobody can lead us
// elsewhere.
//
// A path is looked up anew at each call, and by then a link or another medium may lie on the way.
// Below a held folder names are looked up from the folder that was opened, whatever has become of
// its path; no link is followed and no other medium entered (ELOOP, ENOTDIR, EXDEV).
#pragma once
#include <cstdint>
#include <string>

namespace storage {

class HeldFolder {
 public:
  HeldFolder() = default;  // holds none
  ~HeldFolder();
  HeldFolder(HeldFolder&& other) noexcept;
  HeldFolder& operator=(HeldFolder&& other) noexcept;

  // Both return 0 or an errno. A link at `path` itself is followed: somebody chose that folder.
  [[nodiscard]] static int open(const std::string& path, HeldFolder& out);
  // `path`: as in "data/maps".
  [[nodiscard]] int below(const std::string& path, HeldFolder& out) const;

  [[nodiscard]] int fd() const { return fd_; }  // -1: holds none

 private:
  HeldFolder(int fd, std::uint64_t device) : fd_(fd), device_(device) {}
  int fd_ = -1;
  std::uint64_t device_ = 0;
};

}  // namespace storage
