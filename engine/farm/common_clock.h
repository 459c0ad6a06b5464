// engine/farm/common_clock.h -- the clock that decides in which order the entries of several
// tablets come, and which tablets' own clocks are wrong.
//
// It is a hybrid logical clock (Kulkarni et al., "Logical Physical Clocks", 2014): an entry's clock
// is its wall clock, but never before that of an earlier entry of its tablet, and one millisecond
// (the counter's step) or more after everything that the tablet had read when it wrote
// ClockFollowed. Ties go by tablet and number. What is new against the paper is which wall clocks
// are believed, so that a wrong one neither leads all later entries nor decides which was last:
//
// - A wall clock outside of the years 1900-2199 is not believed. The entry's clock is then that of
//   what it comes after.
// - Two tablets contradict each other when one has read an entry whose wall clock is two days or
//   more ahead of its own: either that was ahead, or the reader's is behind. Both had their say
//   about the time of the entry: its own tablet (by what it wrote when it next read others) and
//   each tablet that read it (by when it read it; where the two are seasons apart, those that it
//   had read lately say the same as it does). When two tablets or more say "earlier", and more than
//   say "about then", the entry's wall clock is put back: by as much as it was ahead of the first
//   that read it, or can have been ahead of what its tablet had read, whichever is more; for a
//   wrong clock must not win. So are the next entries of its tablet while they show the same wrong
//   time. Where it stays open (two tablets alone) the wall clocks are taken as they are: causality
//   still holds, and the keeper is told.
//
// Why this is an order, and a safe one:
// 1. Every rule asks only the set of entries (and the names of a fork's sides), never when they
//    arrived. Clocks are counted along tablets and readings; where readings go in a circle, as only
//    forged ones can, the smallest waiting entry goes first: which one follows from the set, too.
// 2. Clocks never fall along a tablet's numbers, where ties go by number, and rise over a reading:
//    so the sorted order respects both, whatever the wall clocks say.
// 3. All clocks lie within the believed years plus one millisecond a reading: nothing wraps, and
//    nothing of the year 9999 is ever compared.
// 4. Where no clock is two days off, this is the clock of earlier versions: they wrote the clock
//    that they followed instead of numbers, and entries without numbers still go by it.
// 5. One pass over the entries, and a second one over tablets in doubt.
#pragma once
#include <cassert>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "engine/events/branches.h"
#include "engine/events/event.h"

namespace engine {

// A tablet whose wall clock was wrong: before 1900, after 2199, or contradicted by others.
struct WrongClock {
  EntryRef entry;  // the last one with a wrong time
  std::int64_t says_utc_ms = 0;
  std::int64_t entries = 0;  // how many of that tablet have one
  // Two clocks contradict each other and nothing tells whether that one is wrong, or this.
  std::optional<EntryRef> or_else{};
  DUSKWALK_FIELDS(f("entry", s.entry), f("says_utc_ms", s.says_utc_ms), f("entries", s.entries),
                  f("or_else", s.or_else))
};

// By so much a clock contradicts another: more than any wrong time zone.
inline constexpr std::chrono::hours kClockFarOff{48};

class ClockLines;

class CommonClock {
 public:
  // `branches` must outlive it.
  explicit CommonClock(const Branches& branches);
  CommonClock(const CommonClock&) = delete;
  CommonClock& operator=(const CommonClock&) = delete;
  ~CommonClock();

  // Each entry once, in any order; then count() once.
  void add(const Event& e);
  void count();

  // Milliseconds since 1970 of the entry that was added as that one (0, 1, 2 ...).
  [[nodiscard]] std::int64_t of(std::size_t added) const {
    assert(added < clocks_.size());
    return clocks_[added];
  }
  // The clock of each tablet's last entry, those of a fork's sides by the side.
  [[nodiscard]] const std::map<DeviceId, std::int64_t>& last() const { return last_; }
  // By tablet.
  [[nodiscard]] const std::vector<WrongClock>& wrong() const { return wrong_; }
  // Whether two clocks contradict each other, so that a further reading may move earlier entries.
  [[nodiscard]] bool in_doubt() const { return in_doubt_; }

 private:
  std::unique_ptr<ClockLines> lines_;
  std::vector<std::int64_t> clocks_;
  std::map<DeviceId, std::int64_t> last_;
  std::vector<WrongClock> wrong_;
  bool in_doubt_ = false;
};

}  // namespace engine
