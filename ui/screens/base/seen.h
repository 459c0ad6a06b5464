// ui/screens/base/seen.h -- what screens are shown of the world around the farm: label files,
// sticks, bundles, copies, the exchange folder. The app keeps it up to date between frames.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "engine/rules/label.h"

namespace ui {

// A label profile as it came from its file.
struct LabelSeen {
  std::string id;
  std::string region;
  std::string name;
  std::string source;
  std::string checked;  // the day somebody last held it against its source
  std::string check_your_label;
  std::vector<std::string> cautions;
  engine::LabelRules rules;
};

// A place a bundle can be written to: a stick, or a folder chosen by hand.
struct StickSeen {
  std::string name;  // "KEEPER STICK"
  std::string path;
  bool read_only = false;
  std::optional<std::uint64_t> free_bytes;
};

// The last bundle asked for.
struct BundleSeen {
  // Safe: whole on a stick that may be pulled (with no line: only let go of). Written: whole in a
  // folder. Held: on a stick that must not be pulled yet.
  enum class State { None, Writing, Safe, Written, Held, Failed } state = State::None;
  std::string line;                      // what to tell the keeper
  float part = 0;                        // 0 to 1 while writing
  std::string folder{};                  // where to; empty: said beside any place
  std::optional<std::size_t> entries{};  // that the log had then
};

// What came of the last bundles that were taken in.
struct TakenIn {
  std::string folder;   // empty: nothing was taken in since the program began
  bool failed = false;  // then `lines` says why, and nothing has changed
  std::size_t bundles = 0, whole = 0;
  std::int64_t added = 0, known = 0;  // entries
  std::vector<std::string> lines;     // what was left out and why, gaps, broken chains, forks
  bool copy = false;                  // of the store, not bundles; `folder` is then its file
  bool reading = false;               // nothing has come of it yet
};

// A whole copy of the store that lies on a stick or in the tablet's own folder.
struct CopyFound {
  std::string name, path;
  std::string where;  // the stick's name, or "this tablet"
  std::uint64_t bytes = 0;
};
// The last copy asked for, and those that are there.
struct CopiesSeen {
  enum class State { None, Copying, Done, Failed } state = State::None;
  std::string line;                // what to tell the keeper
  float part = 0;                  // 0 to 1 while copying
  std::string name{};              // of the file
  std::vector<CopyFound> found{};  // newest first
};

// What is kept of a tablet and does not count here.
struct HeldSeen {
  std::string tablet, shown;  // its id, and the eight digits by which people know it
  std::size_t entries = 0;
  std::int64_t from = 0, last = 0;   // numbers
  std::string why;                   // "not paired"
  bool refused = false;              // kept out by hand
  std::optional<std::string> key{};  // that its chain says, 64 hex digits
  std::vector<std::string> would_do{};
};
// Whose entries count on this tablet (storage/TRUST.md).
struct TrustSeen {
  bool closed = false;                    // only known and paired tablets count
  std::string words;                      // this tablet's eight; empty: it has no key yet
  std::vector<std::vector<bool>> code{};  // the same and more for a scanner; rows, true is dark
  std::vector<HeldSeen> held{};
};

// The folder through which tablets and an office meet.
struct ExchangeSeen {
  std::string folder;  // empty: none is watched
  bool failed = false;
  std::string when{};                // clock time of the last pass; empty: none yet
  std::vector<std::string> lines{};  // what came of it
};

// What is wrong with the tablet, or open between tablets, until somebody deals with it.
enum class TroubleKind {
  Locked,          // the store is damaged, or newer than this program; nothing is saved
  DiskFull,        // taps are saved for as long as the ballast lasts
  Clock,           // it cannot be right
  NotShown,        // entries of a later version
  Contradictions,  // of several tablets
  Offers           // what other tablets have set
};
struct Trouble {
  TroubleKind kind = TroubleKind::Clock;
  std::string line;  // what is wrong, and what to do
};

}  // namespace ui
