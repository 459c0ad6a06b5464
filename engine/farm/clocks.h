// engine/farm/clocks.h -- what a tablet must know of all clocks so that what it writes next comes
// last in the common order (engine/farm/common_clock.h).
#pragma once
#include <cstdint>
#include <map>
#include <vector>

#include "engine/events/log.h"
#include "engine/farm/common_clock.h"

namespace engine {

class Clocks {
 public:
  Clocks() = default;
  // Of all entries that a farm has.
  Clocks(const Log& log, const Branches& branches);

  // One more entry, which comes after all of them: to_come_last() made it, or nobody else writes.
  void take(const Event& e);

  // The last entry of each other tablet that this one has not said yet to have read.
  [[nodiscard]] std::vector<EntryRef> unread_by(DeviceId device) const;
  // The latest clock of any other tablet, in milliseconds since 1970; 0 when there is none.
  [[nodiscard]] std::int64_t latest_beside(DeviceId device) const;
  // Whose wall clocks are wrong.
  [[nodiscard]] const std::vector<WrongClock>& wrong() const { return wrong_; }
  // Two clocks contradict each other: what was read now may tell which one is wrong, and move
  // entries (put_in_order).
  [[nodiscard]] bool in_doubt() const { return in_doubt_; }

  DUSKWALK_FIELDS(f("ends", s.ends_), f("read", s.read_), f("wrong", s.wrong_),
                  f("in_doubt", s.in_doubt_))

 private:
  // Of one tablet, or one side of its fork.
  struct End {
    std::int64_t seq = 0;    // its last entry
    std::int64_t clock = 0;  // of that entry
    std::int64_t wall = 0;   // the latest of all its wall clocks that are believed
    DUSKWALK_FIELDS(f("seq", s.seq), f("clock", s.clock), f("wall", s.wall))
  };
  void note(const Event& e);
  void note_wrong(const Event& e);

  std::map<DeviceId, End> ends_;
  std::map<DeviceId, std::map<DeviceId, std::int64_t>> read_;  // up to there, by whom and of whom
  std::vector<WrongClock> wrong_;
  bool in_doubt_ = false;
};

// What a tablet that has read all this must write so that `e` comes after it: `e` alone, or
// ClockFollowed before it (and `e` under the next number).
[[nodiscard]] std::vector<Event> to_come_last(const Clocks& clocks, Event e);

}  // namespace engine
