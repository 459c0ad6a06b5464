// storage/disk/removable_media.h -- which sticks are plugged in, and letting go of one.
//
// Reads /proc/self/mountinfo, whose format is in proc(5). No device is polled, no bus is asked: a
// thread waits on StickWatch::fd() for POLLPRI, which the kernel raises at each mount and unmount.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/status.h"
#include "storage/disk/media_errors.h"
#include "storage/disk/stick_helper.h"

namespace storage {

struct Stick {
  std::string path;         // where it is mounted; bytes as the system knows them
  std::string name;         // last part of the path, fit to be shown
  std::string file_system;  // "vfat"
  std::string source;       // "/dev/sda1"
  bool read_only = false;
  Medium medium = Medium::Stick;
  std::optional<std::uint64_t> device;  // st_dev of files on it; none where mountinfo differs
                                        // from it (btrfs). Hand it on in BagRequest::device.
  friend bool operator==(const Stick&, const Stick&) = default;
};

// Media that a keeper may have plugged in, in the order they were mounted, each once:
//   * vfat, msdos, exfat, ntfs, ntfs3, fuseblk wherever they are mounted but
//     /, /home and at or below /boot, /efi, /esp, /usr, /var, /etc, /snap;
//   * ext2/3/4, btrfs, xfs, f2fs, hfs+, udf and others on a device only at or below /mnt, or below
//     /media and /run/media;
// and never the device that one of the system's own folders lies on.
[[nodiscard]] std::vector<Stick> sticks(std::string_view mountinfo);

// A folder chosen by hand, treated like a stick. NotFound when it is none.
[[nodiscard]] engine::Result<Stick> folder_as_stick(const std::string& path);

// Bytes that may still be written below `path`.
[[nodiscard]] engine::Result<std::uint64_t> free_bytes(const std::string& path);

[[nodiscard]] engine::Result<std::string> read_mountinfo();

// Notices plugging and pulling. One owner; fd() may be polled by another thread meanwhile.
class StickWatch {
 public:
  StickWatch();
  ~StickWatch();
  StickWatch(const StickWatch&) = delete;
  StickWatch& operator=(const StickWatch&) = delete;

  // For poll() with POLLPRI; -1 when /proc is not there, then changed() still compares.
  [[nodiscard]] int fd() const { return fd_; }
  // Reads the list anew; true when it differs from the last call. It does not matter whether
  // another thread has taken the kernel's event already.
  [[nodiscard]] bool changed();
  [[nodiscard]] const std::vector<Stick>& now() const { return now_; }

 private:
  int fd_ = -1;
  std::vector<Stick> now_;
};

// Flushed: all is on the medium, it is still mounted. Unmounted: it may be pulled.
// With a mount that is not ours to undo (an ordinary user, a folder) Flushed is the best there is.
enum class Released { Flushed, Unmounted };

// Flushes the medium and, when `path` is one of sticks(), unmounts it: by the helper of a tablet
// (stick_helper.h), or when we are root.
// Busy: another program uses it, "do not pull". Gone, Failed: as in medium.h.
[[nodiscard]] engine::Result<Released> release(const std::string& path);
[[nodiscard]] engine::Result<Released> release(const std::string& path, std::string_view mountinfo,
                                               const std::string& helper_socket = kStickHelper);

}  // namespace storage
