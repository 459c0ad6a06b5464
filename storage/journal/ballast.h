// storage/journal/ballast.h -- room set aside for the day the disk is full.
//
// A file of real blocks beside the store. When a commit finds no room it is given up, so that the
// walk under way can be ended and recorded. 16 MiB because each commit writes whole pages:
// freeing 64 KiB let only 8 more commits through (measured on ext4, one event each).
#pragma once
#include <cstdint>
#include <string>

namespace storage {

class Ballast {
 public:
  Ballast() = default;  // none
  Ballast(std::string vfs, std::string path, std::int64_t bytes)
      : vfs_(std::move(vfs)), path_(std::move(path)), bytes_(bytes) {}

  // Sets the room aside unless that is done; false when there is no room for it.
  bool make();
  // Gives the room back; false when there was none to give.
  bool spend();
  [[nodiscard]] bool spent() const { return spent_; }

 private:
  std::string vfs_, path_;
  std::int64_t bytes_ = 0;
  bool spent_ = false;
};

}  // namespace storage
