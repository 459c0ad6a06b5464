#include "storage/disk/vfs_file.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <vector>

#include "storage/disk/guarded_open.h"

namespace storage {
namespace {

constexpr std::size_t kBlock = 4096;

sqlite3_vfs* find(const std::string& vfs) {
  guard_sqlite_files();
  return sqlite3_vfs_find(vfs.empty() ? nullptr : vfs.c_str());
}

std::string full_path(sqlite3_vfs* vfs, const std::string& path) {
  std::vector<char> full(static_cast<std::size_t>(vfs->mxPathname) + 1);
  const int rc = vfs->xFullPathname(vfs, path.c_str(), static_cast<int>(full.size()), full.data());
  return (rc & 0xff) == SQLITE_OK ? std::string(full.data()) : path;
}

// The whole path of a file beside a store. On the real disk the file's own name is not looked up: a
// link in its place is refused when it is opened, and is what is there or removed, not its target.
std::string side_path(sqlite3_vfs* vfs, const std::string& path) {
  const bool real = vfs == sqlite3_vfs_find(nullptr);
  std::error_code none;
  return real ? std::filesystem::absolute(path, none).string() : full_path(vfs, path);
}

std::string whole_path(sqlite3_vfs* vfs, const std::string& path, VfsKind kind) {
  return kind == VfsKind::Store ? full_path(vfs, path) : side_path(vfs, path);
}

bool is_there(sqlite3_vfs* vfs, const std::string& full) {
  if (vfs == sqlite3_vfs_find(nullptr)) {
    std::error_code unknown;
    return std::filesystem::is_regular_file(std::filesystem::symlink_status(full, unknown));
  }
  int there = 0;
  // A VFS may say "no" to xAccess(EXISTS) for an empty file; opening tells the truth.
  for (const int ask : {SQLITE_ACCESS_EXISTS, SQLITE_ACCESS_READWRITE})
    if (vfs->xAccess(vfs, full.c_str(), ask, &there) != SQLITE_OK || there != 0) return true;
  return false;
}

int flags_of(VfsKind kind, FileUse use) {
  // A "super journal" is the one kind of file that the default VFS treats as a plain file.
  const int what = kind == VfsKind::Store ? SQLITE_OPEN_MAIN_DB : SQLITE_OPEN_SUPER_JOURNAL;
  if (use == FileUse::Read) return what | SQLITE_OPEN_READONLY;
  return what | SQLITE_OPEN_READWRITE | (use == FileUse::Create ? SQLITE_OPEN_CREATE : 0);
}

}  // namespace

struct VfsFile::State {
  std::string full;  // the VFS keeps a pointer to it
  const char* name = nullptr;
  std::vector<std::max_align_t> room;
  bool writable = false;
  bool locked = false;
  bool open = false;

  [[nodiscard]] sqlite3_file* file() { return reinterpret_cast<sqlite3_file*>(room.data()); }

  State(sqlite3_vfs* vfs, std::string whole)
      : full(std::move(whole)),
        name(sqlite3_create_filename(full.c_str(), "", "", 0, nullptr)),
        room(static_cast<std::size_t>(vfs->szOsFile) / sizeof(std::max_align_t) + 1) {}
  State(const State&) = delete;
  State& operator=(const State&) = delete;

  ~State() {
    if (locked) file()->pMethods->xUnlock(file(), SQLITE_LOCK_NONE);
    if (open && file()->pMethods != nullptr) file()->pMethods->xClose(file());
    sqlite3_free_filename(const_cast<char*>(name));
  }
};

VfsFile::VfsFile(std::unique_ptr<State> state) : state_(std::move(state)) {}
VfsFile::~VfsFile() = default;
VfsFile::VfsFile(VfsFile&&) noexcept = default;
VfsFile& VfsFile::operator=(VfsFile&&) noexcept = default;

engine::Result<VfsFile> VfsFile::open(const std::string& vfs_name, const std::string& path,
                                      VfsKind kind, FileUse use) {
  using engine::Code;
  sqlite3_vfs* const vfs = find(vfs_name);
  if (vfs == nullptr) return {Code::Failed, "There is no file system called " + vfs_name + "."};
  const std::string full = whole_path(vfs, path, kind);
  if (use != FileUse::Create && !is_there(vfs, full)) {
    return {Code::NotFound, "There is no file " + path + "."};
  }
  auto state = std::make_unique<State>(vfs, full);
  if (state->name == nullptr) return {Code::Failed, "Out of memory."};
  int got = 0;
  const int rc = vfs->xOpen(vfs, state->name, state->file(), flags_of(kind, use), &got);
  state->open = true;
  if (rc != SQLITE_OK) return {Code::Failed, "The file " + path + " cannot be opened."};
  state->writable = (got & SQLITE_OPEN_READWRITE) != 0;
  return VfsFile(std::move(state));
}

bool VfsFile::writable() const { return state_->writable; }

bool VfsFile::lock_shared() {
  sqlite3_file* const file = state_->file();
  const int rc = file->pMethods->xLock(file, SQLITE_LOCK_SHARED);
  state_->locked = rc == SQLITE_OK;
  return (rc & 0xff) != SQLITE_BUSY;
}

std::int64_t VfsFile::size() const {
  sqlite3_int64 bytes = 0;
  sqlite3_file* const file = state_->file();
  return file->pMethods->xFileSize(file, &bytes) == SQLITE_OK ? bytes : 0;
}

std::string VfsFile::read(std::int64_t offset, std::size_t bytes) const {
  const auto left = static_cast<std::size_t>(std::max<std::int64_t>(size() - offset, 0));
  std::string text(std::min(bytes, left), '\0');
  sqlite3_file* const file = state_->file();
  for (std::size_t at = 0; at < text.size(); at += kBlock) {
    const std::size_t part = std::min(kBlock, text.size() - at);
    const int rc = file->pMethods->xRead(file, text.data() + at, static_cast<int>(part),
                                         offset + static_cast<std::int64_t>(at));
    if (rc != SQLITE_OK) std::fill_n(text.begin() + static_cast<std::ptrdiff_t>(at), part, '\0');
  }
  return text;
}

std::string VfsFile::read_all() const { return read(0, static_cast<std::size_t>(size())); }

bool VfsFile::write(std::int64_t offset, std::string_view bytes) {
  // The default VFS writes at most 128 KiB at once, and takes just as many for nothing.
  constexpr std::size_t kMostAtOnce = std::size_t{64} << 10;
  sqlite3_file* const file = state_->file();
  do {
    const std::string_view piece = bytes.substr(0, kMostAtOnce);
    const int rc =
        file->pMethods->xWrite(file, piece.data(), static_cast<int>(piece.size()), offset);
    if (rc != SQLITE_OK) return false;
    offset += static_cast<std::int64_t>(piece.size());
    bytes.remove_prefix(piece.size());
  } while (!bytes.empty());
  return true;
}

bool VfsFile::allocate(std::int64_t bytes) {
  sqlite3_file* const file = state_->file();
  int chunk = 1 << 20;  // without a chunk size the default VFS takes the hint for advice only
  sqlite3_int64 hint = bytes;
  file->pMethods->xFileControl(file, SQLITE_FCNTL_CHUNK_SIZE, &chunk);
  return file->pMethods->xFileControl(file, SQLITE_FCNTL_SIZE_HINT, &hint) == SQLITE_OK &&
         size() >= bytes;
}

bool is_in_the_way(const std::string& vfs_name, const std::string& path) {
  sqlite3_vfs* const vfs = find(vfs_name);
  if (vfs == nullptr || vfs != sqlite3_vfs_find(nullptr)) return false;
  std::error_code unknown;
  const auto there = std::filesystem::symlink_status(side_path(vfs, path), unknown);
  return std::filesystem::exists(there) && !std::filesystem::is_regular_file(there);
}

bool file_exists(const std::string& vfs_name, const std::string& path) {
  sqlite3_vfs* const vfs = find(vfs_name);
  return vfs != nullptr && is_there(vfs, side_path(vfs, path));
}

void remove_file(const std::string& vfs_name, const std::string& path) {
  sqlite3_vfs* const vfs = find(vfs_name);
  if (vfs == nullptr) return;
  const std::string full = side_path(vfs, path);
  if (vfs == sqlite3_vfs_find(nullptr) && !is_there(vfs, full)) return;  // none of ours
  vfs->xDelete(vfs, full.c_str(), 0);
}

std::int64_t file_size(const std::string& vfs, const std::string& path) {
  const auto file = VfsFile::open(vfs, path, VfsKind::Side, FileUse::Read);
  return file.ok() ? file.value().size() : 0;
}

std::string file_bytes(const std::string& vfs, const std::string& path, VfsKind kind) {
  const auto file = VfsFile::open(vfs, path, kind, FileUse::Read);
  return file.ok() ? file.value().read_all() : std::string{};
}

}  // namespace storage
