#include "tests/fuzz/folder.h"

#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <set>

namespace fuzz {
namespace {

const std::string kMark = "@@ ";

struct Scratch {
  std::string path = ::access("/dev/shm", W_OK) == 0 ? "/dev/shm/fuzz-XXXXXX" : "/tmp/fuzz-XXXXXX";
  Scratch() {
    if (::mkdtemp(path.data()) == nullptr) std::abort();
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
};

std::string plain(std::string path) {
  if (path.ends_with("/.")) path.resize(path.size() - 2);
  return path;
}

}  // namespace

FolderFiles files_in(std::string_view text) {
  FolderFiles files;
  std::string* file = nullptr;
  bool begun = false;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (line.starts_with(kMark)) {
      file = &files[std::string(line.substr(kMark.size()))];
      begun = false;
    } else if (file != nullptr) {
      if (begun) *file += '\n';
      *file += line;
      begun = true;
    }
  }
  return files;
}

HeldFiles::HeldFiles(const FolderFiles& files) {
  for (const auto& [path, bytes] : files) files_["/in/" + path] = bytes;
}

int HeldFiles::info(const std::string& asked, storage::FileInfo& out) {
  const std::string path = plain(asked);
  out = {};
  if (const auto file = files_.find(path); file != files_.end()) {
    out.kind = storage::FileKind::Regular;
    out.size = file->second.size();
  } else if (const auto below = files_.lower_bound(path + "/");
             path == "/in" || (below != files_.end() && below->first.starts_with(path + "/"))) {
    out.kind = storage::FileKind::Folder;
  }
  return 0;
}

int HeldFiles::list(const std::string& asked, std::vector<std::string>& out) {
  const std::string below = plain(asked) + "/";
  std::set<std::string> names;
  for (const auto& [path, bytes] : files_) {
    if (!path.starts_with(below)) continue;
    std::string name = path.substr(below.size());
    name.resize(std::min(name.find('/'), name.size()));
    if (!name.empty() && name != "." && name != "..") names.insert(std::move(name));
  }
  out.assign(names.begin(), names.end());
  return 0;
}

int HeldFiles::open(const std::string& path, int& fd) {
  const auto file = files_.find(path);
  if (file == files_.end()) return ENOENT;
  fd = next_++;
  open_[fd] = {file->second};
  return 0;
}

int HeldFiles::read(int fd, char* to, std::size_t most, std::size_t& got) {
  Opened& file = open_.at(fd);
  got = std::min(most, file.left.size());
  std::memcpy(to, file.left.data(), got);
  file.left.remove_prefix(got);
  return 0;
}

int HeldFiles::close(int fd) { return open_.erase(fd) == 1 ? 0 : EBADF; }

int HeldFiles::room(const std::string&, storage::Room&) { return EROFS; }
int HeldFiles::make_folder(const std::string&) { return EROFS; }
int HeldFiles::create(const std::string&, int&) { return EROFS; }
int HeldFiles::write(int, std::string_view) { return EROFS; }
int HeldFiles::sync(int) { return EROFS; }
int HeldFiles::sync_folder(const std::string&) { return EROFS; }
int HeldFiles::sync_medium(const std::string&) { return EROFS; }
int HeldFiles::rename(const std::string&, const std::string&) { return EROFS; }
int HeldFiles::remove_file(const std::string&) { return EROFS; }
int HeldFiles::remove_folder(const std::string&) { return EROFS; }

const std::string& scratch() {
  static const Scratch folder;
  return folder.path;
}

}  // namespace fuzz
