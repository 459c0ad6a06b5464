// tests/support/cut_vfs.h -- an SQLite VFS over files in memory that records, fails and dies.
//
// iVersion 1, no shared memory: enough for a connection with locking_mode=EXCLUSIVE.
#pragma once
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "tests/support/cut_disk.h"

struct sqlite3_vfs;

namespace cut {

enum class FaultKind { None, IoError, Full };

// One machine: its files, what happened to them, and what goes wrong.
struct Machine {
  std::map<std::string, std::shared_ptr<std::string>> files;
  bool recording = false;
  std::vector<Step> trace;

  bool dead = false;       // the program was killed: nothing more reaches the files
  bool read_only = false;  // a write-protected medium
  std::size_t capacity = std::numeric_limits<std::size_t>::max();  // bytes of all files

  FaultKind fault = FaultKind::None;
  std::int64_t fault_in = 0;  // calls until it strikes; Full counts writes only
  bool for_good = false;
  bool struck = false;

  void load(const Files& content);
  [[nodiscard]] Files content() const;
  void note(Step step);
  [[nodiscard]] bool strikes(FaultKind kind);  // asked once at each call
  [[nodiscard]] std::size_t used() const;
};

// Registers the machine as a VFS under `name` for as long as the object lives.
class Mount {
 public:
  Mount(std::string name, Machine& machine);
  ~Mount();
  Mount(const Mount&) = delete;
  Mount& operator=(const Mount&) = delete;
  void use(Machine& machine);  // another disk under the same name; no file may be open

 private:
  std::string name_;
  std::unique_ptr<sqlite3_vfs> vfs_;
};

}  // namespace cut
