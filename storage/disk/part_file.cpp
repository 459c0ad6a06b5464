#include "storage/disk/part_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <utility>
#include <vector>

#include "storage/disk/files.h"
#include "storage/disk/media_errors.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr std::string_view kPart = ".part-";
// What SQLite and the journal put beside a store, also beside an unfinished one.
constexpr std::string_view kBeside[] = {"-journal", "-wal", ".tip", ".ballast"};
constexpr int kMostTries = 8;  // of making one while another program cleans up

struct Named {
  std::string folder, file;
};

Named parted(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == path.npos) return {".", path};
  return {slash == 0 ? "/" : path.substr(0, slash), path.substr(slash + 1)};
}

bool is_part_of(const std::string& file, const std::string& name) {
  const std::string head = name + std::string(kPart);
  return file.starts_with(head) && file.size() > head.size() &&
         file.find_first_not_of("0123456789", head.size()) == file.npos;
}

// Ours, a plain file, and no writer holds it.
bool was_left(const std::string& part) {
  const int fd = ::open(part.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
  if (fd < 0) return false;
  struct stat s {};
  const bool left = ::fstat(fd, &s) == 0 && S_ISREG(s.st_mode) && s.st_uid == ::geteuid() &&
                    ::flock(fd, LOCK_EX | LOCK_NB) == 0;
  ::close(fd);
  return left;
}

void remove_beside(const std::string& part) {
  for (const std::string_view beside : kBeside) ::unlink((part + std::string(beside)).c_str());
}

void remove_with_what_is_beside(const std::string& part) {
  ::unlink(part.c_str());
  remove_beside(part);
}

// Best effort: at worst some room stays taken.
void clean_left_overs(const std::string& name) {
  const Named at = parted(name);
  std::vector<std::string> files;
  if (DiskFiles().list(at.folder, files) != 0) return;
  for (const std::string& file : files)
    if (is_part_of(file, at.file) && was_left(at.folder + "/" + file))
      remove_with_what_is_beside(at.folder + "/" + file);
}

// Another program may have taken the file for a left-over before it was locked.
bool is_named(const std::string& path) {
  struct stat there {};
  return ::lstat(path.c_str(), &there) == 0 && S_ISREG(there.st_mode);
}

}  // namespace

PartFile::PartFile(std::string name, std::string path, int fd)
    : name_(std::move(name)), path_(std::move(path)), fd_(fd) {}

PartFile::PartFile(PartFile&& other) noexcept
    : name_(std::move(other.name_)),
      path_(std::move(other.path_)),
      fd_(std::exchange(other.fd_, -1)) {}

PartFile::~PartFile() { remove(); }

Result<PartFile> PartFile::make(const std::string& name, Readers readers) {
  clean_left_overs(name);
  const std::string path = fmt::format("{}{}{}", name, kPart, ::getpid());
  const bool private_one = readers == Readers::Owner;
  for (int tries = 0; tries < kMostTries; ++tries) {
    const int fd = ::open(path.c_str(), O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC,
                          private_one ? 0600 : 0666);
    if (fd < 0) return trouble(Medium::Folder, Doing::Writing, errno, name);
    PartFile part(name, path, fd);
    (void)::flock(fd, LOCK_EX | LOCK_NB);  // where there are no locks nothing is cleaned up either
    if (!is_named(path)) continue;
    if (private_one) (void)::fchmod(fd, 0600);  // FAT has no modes and refuses
    return part;
  }
  return Status(Code::Failed, fmt::format("{}: another program writes it too: try again", name));
}

Status PartFile::failed(int err) const {
  return trouble(Medium::Folder, Doing::Writing, err, name_);
}

Status PartFile::write(std::string_view bytes) {
  const int err = DiskFiles().write(fd_, bytes);
  return err == 0 ? Status{} : failed(err);
}

Status PartFile::finish(Over over) {
  DiskFiles disk;
  int err = disk.sync(fd_);
  if (err == 0 && over == Over::Nothing) err = disk.rename(path_, name_);
  if (err == 0 && over == Over::WhatIsThere && ::rename(path_.c_str(), name_.c_str()) != 0)
    err = errno;
  if (err == EEXIST && over == Over::Nothing)
    return {Code::BadInput, fmt::format("{}: a file of that name exists", name_)};
  if (err != 0) return failed(err);
  remove_beside(path_);
  err = disk.close(std::exchange(fd_, -1));
  const int flushed = disk.sync_folder(parted(name_).folder);
  if (err == 0) err = flushed;
  return err == 0 ? Status{} : failed(err);
}

void PartFile::remove() {
  if (fd_ < 0) return;
  remove_with_what_is_beside(path_);
  ::close(fd_);
  fd_ = -1;
}

}  // namespace storage
