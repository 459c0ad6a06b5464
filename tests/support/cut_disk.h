// tests/support/cut_disk.h -- a disk that can lose power: what was flushed stays, the rest may not.
//
// A recorded list of file operations is played forward; at every step the disk can be cut, which
// gives the files as they could lie there after the power comes back. Rules of the model: a flush
// makes a file's own bytes durable; the first flush of a new journal or log also flushes the folder
// (the default SQLite VFS does that); a write never touches bytes outside its range.
#pragma once
#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace cut {

using Files = std::map<std::string, std::string>;  // name -> content
using Random = std::mt19937;

enum class Op { Create, Write, Truncate, Sync, Delete, SyncFolder, Attempt, Ack };

struct Step {
  Op op{};
  std::string file;
  std::int64_t at = 0;    // Write: offset; Truncate: size; Attempt, Ack: highest event number
  std::string data;       // Write
  bool log_like = false;  // Create: a journal or log, whose first flush flushes the folder
};

enum class Damage { LoseAll, KeepAll, TornPrefix, Sectors, GarbageGrowth };
inline constexpr Damage kAllDamage[] = {Damage::LoseAll, Damage::KeepAll, Damage::TornPrefix,
                                        Damage::Sectors, Damage::GarbageGrowth};
[[nodiscard]] constexpr bool is_random(Damage d) { return d >= Damage::TornPrefix; }

class World {
 public:
  explicit World(const Files& durable = {}, bool sync_lies = false);

  void play(const Step& step);
  [[nodiscard]] Files cut(Damage damage, Random& random) const;

 private:
  struct Inode {
    std::string durable;
    std::vector<Step> pending;
    bool flushes_folder = false;
  };
  using Folder = std::map<std::string, int>;  // name -> inode number

  [[nodiscard]] Folder surviving_folder(Damage damage, Random& random) const;
  void flush_folder();

  bool sync_lies_;
  std::vector<Inode> inodes_;
  Folder now_, durable_;
  std::vector<Folder> since_;  // the folder after each change that is not flushed yet
};

// Lays one write or truncation over `content`.
void lay(const Step& step, std::string& content);

}  // namespace cut
