#include "storage/disk/removable_media.h"

#include <fcntl.h>
#include <sys/mount.h>
#include <sys/sysmacros.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>

#include "storage/disk/files.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

const char* const kMountinfo = "/proc/self/mountinfo";

// One line of mountinfo; names as in proc(5).
struct Mount {
  std::string id, parent, device, root, point, options, type, source, super_options;
};

// mountinfo writes space, tab, line end and backslash as \040, \011, \012 and \134.
std::string undo_octal(std::string_view text) {
  const auto octal = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '7'; };
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 3 < text.size() && octal(i + 1) && octal(i + 2) && octal(i + 3)) {
      const int value = (text[i + 1] - '0') * 64 + (text[i + 2] - '0') * 8 + (text[i + 3] - '0');
      if (value < 256) {
        out += static_cast<char>(value);
        i += 3;
        continue;
      }
    }
    out += text[i];
  }
  return out;
}

std::vector<std::string> split(std::string_view text, char by) {
  std::vector<std::string> parts;
  while (!text.empty()) {
    const std::size_t end = text.find(by);
    if (end != 0) parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return parts;
}

std::optional<Mount> read_mount(std::string_view line) {
  const std::vector<std::string> f = split(line, ' ');
  const auto dash = std::find(f.begin() + std::min<std::ptrdiff_t>(6, std::ssize(f)), f.end(), "-");
  if (f.end() - dash < 4) return std::nullopt;  // "-", type, source, super options
  return Mount{
      f[0],   f[1], f[2], undo_octal(f[3]), undo_octal(f[4]), f[5], dash[1], undo_octal(dash[2]),
      dash[3]};
}

bool is_at_or_below(const std::string& path, const std::string& top) {
  return path == top || path.starts_with(top + "/");
}

bool is_system_place(const std::string& path) {
  if (path == "/" || path == "/home") return true;
  const char* const tops[] = {"/boot", "/efi", "/esp", "/usr", "/var", "/etc", "/snap"};
  return std::any_of(std::begin(tops), std::end(tops),
                     [&](const char* top) { return is_at_or_below(path, top); });
}

bool is_plug_place(const std::string& path) {
  return is_at_or_below(path, "/mnt") || path.starts_with("/media/") ||
         path.starts_with("/run/media/");
}

template <std::size_t N>
bool is_one_of(const std::string& type, const char* const (&list)[N]) {
  return std::find(std::begin(list), std::end(list), type) != std::end(list);
}

// What sticks are sold with; and what a keeper may have put on one.
bool is_stick_type(const std::string& type) {
  static const char* const kTypes[] = {"vfat", "msdos", "exfat", "ntfs", "ntfs3", "fuseblk"};
  return is_one_of(type.substr(0, type.find('.')), kTypes);
}

bool is_disk_type(const std::string& type) {
  static const char* const kTypes[] = {"ext2", "ext3",    "ext4", "btrfs",   "xfs", "f2fs",
                                       "hfs",  "hfsplus", "udf",  "iso9660", "jfs", "nilfs2"};
  return is_one_of(type, kTypes);
}

bool has_ro(const std::string& options) {
  const std::vector<std::string> all = split(options, ',');
  return std::find(all.begin(), all.end(), "ro") != all.end();
}

std::optional<std::uint64_t> device_number(const std::string& text) {
  const std::size_t colon = text.find(':');
  unsigned major_part = 0, minor_part = 0;
  if (colon == std::string::npos) return std::nullopt;
  const char *begin = text.data(), *middle = begin + colon, *end = begin + text.size();
  if (std::from_chars(begin, middle, major_part).ptr != middle ||
      std::from_chars(middle + 1, end, minor_part).ptr != end || middle + 1 == end)
    return std::nullopt;
  return makedev(major_part, minor_part);
}

std::string last_part(const std::string& path) {
  std::string name = path.substr(path.find_last_of('/') + 1);
  for (char& c : name)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = '?';
  return name.empty() ? path : name;
}

std::vector<Mount> read_mounts(std::string_view mountinfo) {
  std::vector<Mount> mounts;
  for (const std::string& line : split(mountinfo, '\n'))
    if (std::optional<Mount> mount = read_mount(line)) mounts.push_back(std::move(*mount));
  return mounts;
}

// Covered by another mount at the same place: that one has this one as its parent (proc(5)).
bool is_covered(const Mount& mount, const std::vector<Mount>& all) {
  return std::any_of(all.begin(), all.end(), [&](const Mount& other) {
    return other.point == mount.point && other.parent == mount.id && other.id != mount.id;
  });
}

bool is_system_device(const Mount& mount, const std::vector<Mount>& all) {
  return std::any_of(all.begin(), all.end(), [&](const Mount& other) {
    return other.device == mount.device && is_system_place(other.point);
  });
}

bool is_stick(const Mount& mount, const std::vector<Mount>& all) {
  const bool plugged =
      is_stick_type(mount.type) ||
      (is_disk_type(mount.type) && is_plug_place(mount.point) && mount.source.starts_with("/dev/"));
  return plugged && !is_covered(mount, all) && !is_system_device(mount, all);
}

Stick as_stick(const Mount& m) {
  Stick stick{m.point, last_part(m.point), m.type, m.source, {}, Medium::Stick, {}};
  stick.read_only = has_ro(m.options) || has_ro(m.super_options);
  if (m.type != "btrfs") stick.device = device_number(m.device);
  return stick;
}

Status busy(const std::string& path) {
  return {Code::Busy, "the stick " + last_part(path) +
                          " is still used by another program: do not pull it; close what shows "
                          "its files and try again"};
}

}  // namespace

std::vector<Stick> sticks(std::string_view mountinfo) {
  const std::vector<Mount> mounts = read_mounts(mountinfo);
  std::vector<Stick> out;
  std::vector<std::string> devices;
  for (const Mount& mount : mounts) {
    if (!is_stick(mount, mounts)) continue;
    if (std::find(devices.begin(), devices.end(), mount.device) != devices.end()) continue;
    devices.push_back(mount.device);
    out.push_back(as_stick(mount));
  }
  return out;
}

Result<Stick> folder_as_stick(const std::string& path) {
  std::string folder = path;
  while (folder.size() > 1 && folder.back() == '/') folder.pop_back();
  DiskFiles files;
  FileInfo info;
  Room room;
  // "/." looks at the folder itself when a link leads there.
  if (const int err = files.info(folder + "/.", info))
    return trouble(Medium::Folder, Doing::Reading, err, folder);
  if (folder.empty() || info.kind != FileKind::Folder)
    return {Code::NotFound, "\"" + folder + "\" is no folder: choose one that is there"};
  if (const int err = files.room(folder, room))
    return trouble(Medium::Folder, Doing::Reading, err, folder);
  return Stick{folder,         last_part(folder), "folder",   folder,
               room.read_only, Medium::Folder,    info.device};
}

Result<std::uint64_t> free_bytes(const std::string& path) {
  DiskFiles files;
  Room room;
  if (const int err = files.room(path, room))
    return trouble(Medium::Stick, Doing::Reading, err, path);
  return room.free;
}

Result<std::string> read_mountinfo() {
  DiskFiles files;
  int fd = -1;
  if (const int err = files.open(kMountinfo, fd))
    return {Code::Failed, "the list of mounted media cannot be read (errno " + std::to_string(err) +
                              "): choose a folder by hand"};
  std::string text(64 * 1024, '\0');
  std::size_t size = 0, got = 1;
  int err = 0;
  while (err == 0 && got != 0) {
    if (size == text.size()) text.resize(2 * size);
    err = files.read(fd, text.data() + size, text.size() - size, got);
    size += got;
  }
  (void)files.close(fd);
  if (err != 0) return trouble(Medium::Folder, Doing::Reading, err, kMountinfo);
  text.resize(size);
  return text;
}

StickWatch::StickWatch() : fd_(::open(kMountinfo, O_RDONLY | O_CLOEXEC)) { (void)changed(); }

StickWatch::~StickWatch() {
  if (fd_ >= 0) ::close(fd_);
}

bool StickWatch::changed() {
  const Result<std::string> text = read_mountinfo();
  std::vector<Stick> next = text.ok() ? sticks(text.value()) : std::vector<Stick>{};
  if (next == now_) return false;
  now_ = std::move(next);
  return true;
}

Result<Released> release(const std::string& path, std::string_view mountinfo,
                         const std::string& helper_socket) {
  DiskFiles files;
  if (const int err = files.sync_medium(path))
    return trouble(Medium::Stick, Doing::Writing, err, path);
  const std::vector<Stick> plugged = sticks(mountinfo);
  const bool ours = std::any_of(plugged.begin(), plugged.end(),
                                [&](const Stick& stick) { return stick.path == path; });
  if (!ours) return Released::Flushed;
  switch (ask_to_unmount(path, helper_socket)) {
    case HelperSays::Unmounted:
      return Released::Unmounted;
    case HelperSays::Busy:
      return busy(path);
    case HelperSays::Refused:  // mounted by somebody else
    case HelperSays::Absent:
      break;
  }
  if (::geteuid() != 0) return Released::Flushed;
  if (::umount2(path.c_str(), UMOUNT_NOFOLLOW) == 0) return Released::Unmounted;
  if (errno == EBUSY) return busy(path);
  if (errno == EPERM) return Released::Flushed;
  return trouble(Medium::Stick, Doing::Writing, errno, path);
}

Result<Released> release(const std::string& path) {
  const Result<std::string> text = read_mountinfo();
  return release(path, text.ok() ? std::string_view(text.value()) : std::string_view{});
}

}  // namespace storage
