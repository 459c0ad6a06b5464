#include "storage/disk/whole_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "storage/disk/files.h"
#include "storage/disk/media_errors.h"

namespace storage {
namespace {

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

engine::Status failed(const std::string& path) {
  return trouble(Medium::Folder, Doing::Writing, errno, path);
}

// The new name is safe from a power cut only when the folder that holds it is flushed too.
engine::Status flush_name(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const int why = DiskFiles().sync_folder(folder.empty() ? "." : folder);
  return why == 0 ? engine::Status{} : trouble(Medium::Folder, Doing::Writing, why, path);
}

}  // namespace

engine::Status write_whole_file(const std::string& path, std::string_view bytes) {
  const std::string beside = fmt::format("{}.part-{}", path, ::getpid());
  const int fd = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
  if (fd < 0) return failed(path);
  const bool written = write_all(fd, bytes) && ::fsync(fd) == 0;
  const int error = errno;
  const bool closed = ::close(fd) == 0;
  if (written && closed && std::rename(beside.c_str(), path.c_str()) == 0) return flush_name(path);
  if (!written) errno = error;
  const engine::Status why = failed(path);
  ::unlink(beside.c_str());
  return why;
}

engine::Result<std::string> read_whole_file(const std::string& path, std::size_t most) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return {engine::Code::NotFound, fmt::format("{}: {}", path, std::strerror(errno))};
  std::string bytes;
  char piece[65536];
  while (file.read(piece, sizeof piece) || file.gcount() > 0) {
    bytes.append(piece, static_cast<std::size_t>(file.gcount()));
    if (bytes.size() > most)
      return {engine::Code::BadInput, fmt::format("{}: larger than {} bytes", path, most)};
  }
  if (file.bad()) return {engine::Code::Failed, fmt::format("{}: cannot be read", path)};
  return bytes;
}

}  // namespace storage
