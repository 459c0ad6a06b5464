#include "tests/support/cut_vfs.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <new>

namespace cut {
namespace {

struct Handle {
  sqlite3_file base{};  // first: SQLite sees only this
  Machine* machine = nullptr;
  std::string name;
  std::shared_ptr<std::string> bytes;
};

Handle& handle(sqlite3_file* file) { return *reinterpret_cast<Handle*>(file); }
Machine& machine_of(sqlite3_vfs* vfs) { return *static_cast<Machine*>(vfs->pAppData); }

int close_file(sqlite3_file* file) {
  handle(file).~Handle();
  return SQLITE_OK;
}

int read(sqlite3_file* file, void* to, int bytes, sqlite3_int64 offset) {
  Handle& h = handle(file);
  if (h.machine->strikes(FaultKind::IoError)) return SQLITE_IOERR_READ;
  const auto want = static_cast<std::size_t>(bytes);
  const auto at = std::min(static_cast<std::size_t>(offset), h.bytes->size());
  const std::size_t got = h.bytes->copy(static_cast<char*>(to), want, at);
  std::memset(static_cast<char*>(to) + got, 0, want - got);
  return got == want ? SQLITE_OK : SQLITE_IOERR_SHORT_READ;
}

// Changes a file and notes it, unless the machine is dead, full or broken.
int change(Handle& h, Step step, int error) {
  Machine& m = *h.machine;
  if (m.dead || m.strikes(FaultKind::IoError)) return error;
  if (step.op == Op::Write && m.strikes(FaultKind::Full)) return SQLITE_FULL;
  const std::size_t end = static_cast<std::size_t>(step.at) + step.data.size();
  const std::size_t grows = end > h.bytes->size() ? end - h.bytes->size() : 0;
  if (step.op == Op::Write && m.used() + grows > m.capacity) return SQLITE_FULL;
  lay(step, *h.bytes);
  m.note(std::move(step));
  return SQLITE_OK;
}

int write(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 offset) {
  const std::string data(static_cast<const char*>(from), static_cast<std::size_t>(bytes));
  return change(handle(file), {Op::Write, handle(file).name, offset, data}, SQLITE_IOERR_WRITE);
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
  return change(handle(file), {Op::Truncate, handle(file).name, size, {}}, SQLITE_IOERR_TRUNCATE);
}

int sync(sqlite3_file* file, int) {
  return change(handle(file), {Op::Sync, handle(file).name}, SQLITE_IOERR_FSYNC);
}

int size_of(sqlite3_file* file, sqlite3_int64* size) {
  if (handle(file).machine->strikes(FaultKind::IoError)) return SQLITE_IOERR_FSTAT;
  *size = static_cast<sqlite3_int64>(handle(file).bytes->size());
  return SQLITE_OK;
}

int lock(sqlite3_file*, int) { return SQLITE_OK; }
int reserved(sqlite3_file*, int* result) { return *result = 0, SQLITE_OK; }

// Room set aside: the file grows, which counts against the capacity.
int control(sqlite3_file* file, int what, void* argument) {
  if (what == SQLITE_FCNTL_CHUNK_SIZE) return SQLITE_OK;
  if (what != SQLITE_FCNTL_SIZE_HINT) return SQLITE_NOTFOUND;
  if (handle(file).name.find(".ballast") == std::string::npos) return SQLITE_OK;
  const auto size = *static_cast<sqlite3_int64*>(argument);
  const char end = 0;
  return write(file, &end, 1, size - 1);
}

int sector_size(sqlite3_file*) { return 4096; }
int characteristics(sqlite3_file*) { return SQLITE_IOCAP_POWERSAFE_OVERWRITE; }

const sqlite3_io_methods kMethods = {
    1,       close_file, read,    write,       truncate,        sync,    size_of, lock,
    lock,    reserved,   control, sector_size, characteristics, nullptr, nullptr, nullptr,
    nullptr, nullptr,    nullptr};

int open_file(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* got) {
  file->pMethods = nullptr;
  Machine& m = machine_of(vfs);
  if (m.strikes(FaultKind::IoError)) return SQLITE_CANTOPEN;
  const std::string key = name == nullptr ? "(temporary)" : name;
  const bool there = m.files.contains(key);
  if (!there && ((flags & SQLITE_OPEN_CREATE) == 0 || m.read_only || m.dead)) {
    return SQLITE_CANTOPEN;
  }
  if (!there) {
    m.files[key] = std::make_shared<std::string>();
    m.note({Op::Create, key, 0, {}, (flags & SQLITE_OPEN_MAIN_DB) == 0});
  }
  auto* const h = new (file) Handle{{}, &m, key, m.files[key]};
  h->base.pMethods = &kMethods;
  const int may = m.read_only ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE;
  if (got != nullptr) *got = (flags & ~SQLITE_OPEN_READWRITE & ~SQLITE_OPEN_READONLY) | may;
  return SQLITE_OK;
}

int delete_file(sqlite3_vfs* vfs, const char* name, int sync_folder) {
  Machine& m = machine_of(vfs);
  if (m.dead || m.read_only || m.strikes(FaultKind::IoError)) return SQLITE_IOERR_DELETE;
  if (m.files.erase(name) == 0) return SQLITE_IOERR_DELETE_NOENT;
  m.note({Op::Delete, name});
  if (sync_folder != 0) m.note({Op::SyncFolder, name});
  return SQLITE_OK;
}

int access(sqlite3_vfs* vfs, const char* name, int flags, int* result) {
  Machine& m = machine_of(vfs);
  if (m.strikes(FaultKind::IoError)) return SQLITE_IOERR_ACCESS;
  *result = m.files.contains(name) && !(flags == SQLITE_ACCESS_READWRITE && m.read_only);
  return SQLITE_OK;
}

int full_path(sqlite3_vfs*, const char* name, int size, char* to) {
  sqlite3_snprintf(size, to, "%s", name);
  return SQLITE_OK;
}

int randomness(sqlite3_vfs*, int bytes, char* to) {
  for (int i = 0; i < bytes; ++i) to[i] = static_cast<char>(i * 41 + 7);
  return bytes;
}

int sleep(sqlite3_vfs*, int microseconds) { return microseconds; }
int now(sqlite3_vfs*, double* julian_day) { return *julian_day = 2460000.5, SQLITE_OK; }
int last_error(sqlite3_vfs*, int, char*) { return 0; }

}  // namespace

void Machine::load(const Files& from) {
  files.clear();
  for (const auto& [name, bytes] : from) files[name] = std::make_shared<std::string>(bytes);
}

Files Machine::content() const {
  Files all;
  for (const auto& [name, bytes] : files) all[name] = *bytes;
  return all;
}

void Machine::note(Step step) {
  if (recording) trace.push_back(std::move(step));
}

bool Machine::strikes(FaultKind kind) {
  if (fault != kind || kind == FaultKind::None) return false;
  if (struck && !for_good) return false;
  if (!struck && --fault_in > 0) return false;
  struck = true;
  return true;
}

std::size_t Machine::used() const {
  std::size_t sum = 0;
  for (const auto& [name, bytes] : files) sum += bytes->size();
  return sum;
}

Mount::Mount(std::string name, Machine& machine)
    : name_(std::move(name)), vfs_(std::make_unique<sqlite3_vfs>()) {
  *vfs_ = {};
  vfs_->iVersion = 1;
  vfs_->szOsFile = sizeof(Handle);
  vfs_->mxPathname = 256;
  vfs_->zName = name_.c_str();
  vfs_->pAppData = &machine;
  vfs_->xOpen = open_file;
  vfs_->xDelete = delete_file;
  vfs_->xAccess = access;
  vfs_->xFullPathname = full_path;
  vfs_->xRandomness = randomness;
  vfs_->xSleep = sleep;
  vfs_->xCurrentTime = now;
  vfs_->xGetLastError = last_error;
  sqlite3_vfs_register(vfs_.get(), 0);
}

Mount::~Mount() { sqlite3_vfs_unregister(vfs_.get()); }

void Mount::use(Machine& machine) { vfs_->pAppData = &machine; }

}  // namespace cut
