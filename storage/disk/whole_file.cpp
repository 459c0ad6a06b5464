#include "storage/disk/whole_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <vector>

#include "storage/disk/files.h"
#include "storage/disk/media_errors.h"

namespace storage {
namespace {

engine::Status too_large(const std::string& path, std::size_t most) {
  return {engine::Code::BadInput, fmt::format("{}: larger than {} bytes", path, most)};
}

engine::Status not_found(const std::string& path, int err) {
  return {engine::Code::NotFound, fmt::format("{}: {}", path, std::strerror(err))};
}

engine::Status unreadable(const std::string& path) {
  return {engine::Code::Failed, fmt::format("{}: cannot be read", path)};
}

}  // namespace

engine::Status write_whole_file(const std::string& path, std::string_view bytes,
                                PartFile::Readers readers) {
  auto part = PartFile::make(path, readers);
  if (!part.ok()) return part.status();
  if (engine::Status written = part.value().write(bytes); !written.ok()) return written;
  return part.value().finish(PartFile::Over::WhatIsThere);
}

engine::Status copy_into(PartFile& part, const std::string& from) {
  DiskFiles disk;
  const int fd = ::open(from.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (fd < 0) return trouble(Medium::Folder, Doing::Reading, errno, from);
  std::vector<char> piece(std::size_t{256} << 10);
  std::size_t got = 1;
  engine::Status copied;
  while (copied.ok() && got != 0) {
    const int err = disk.read(fd, piece.data(), piece.size(), got);
    copied = err == 0 ? part.write({piece.data(), got})
                      : trouble(Medium::Folder, Doing::Reading, err, from);
  }
  ::close(fd);
  return copied;
}

engine::Status copy_whole_file(const std::string& from, const std::string& to) {
  auto part = PartFile::make(to, PartFile::Readers::Owner);
  if (!part.ok()) return part.status();
  if (engine::Status copied = copy_into(part.value(), from); !copied.ok()) return copied;
  return part.value().finish(PartFile::Over::Nothing);
}

engine::Result<std::string> read_whole_file(const std::string& path, std::size_t most) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return not_found(path, errno);
  std::string bytes;
  char piece[65536];
  while (file.read(piece, sizeof piece) || file.gcount() > 0) {
    bytes.append(piece, static_cast<std::size_t>(file.gcount()));
    if (bytes.size() > most) return too_large(path, most);
  }
  if (file.bad()) return unreadable(path);
  return bytes;
}

engine::Result<std::string> read_own_file(const std::string& path, std::size_t most) {
  DiskFiles files;
  int fd = -1;
  if (kind_of(files, path) != FileKind::Regular) return not_found(path, ENOENT);
  if (const int err = files.open(path, fd)) return not_found(path, err);
  std::string bytes;
  char piece[65536];
  std::size_t got = 1;
  int err = 0;
  while (err == 0 && got != 0 && bytes.size() <= most) {
    err = files.read(fd, piece, sizeof piece, got);
    if (err == 0) bytes.append(piece, got);
  }
  (void)files.close(fd);
  if (err != 0) return unreadable(path);
  if (bytes.size() > most) return too_large(path, most);
  return bytes;
}

}  // namespace storage
