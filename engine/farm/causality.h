// engine/farm/causality.h -- what a tablet had read when it wrote an entry.
//
// An entry says it by ClockFollowed: a tablet that takes in others' entries writes, with the first
// entry after that, up to which number it has read each of them (`read`). Whatever stands in its
// own line before an entry was read too, and so was all that those it had read had read by then. An
// entry that another one names (a strike, a correction, a settling) was read as well.
//
// Earlier versions wrote a clock instead of numbers (`after_utc_ms`): everything up to that clock
// counts as read then. They wrote it only where their own clock was not ahead anyway, so a "no"
// about their entries means no more than that nothing says yes.
#pragma once
#include <map>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

class Causality {
 public:
  // Goes through the farm's log once and keeps no reference to it.
  explicit Causality(const Farm& farm);

  // Whether the tablet that wrote `reader` had by then read `what`. Its own earlier entries: yes,
  // and so are those that its side of a fork goes on from. Both are named as the farm's log names
  // them; of entries that are not there the answer means nothing.
  [[nodiscard]] bool had_read(const EntryRef& reader, const EntryRef& what) const;

 private:
  struct Reading {
    std::int64_t seq = 0;        // of the entry that says it
    std::vector<EntryRef> read;  // up to there, of each tablet
  };
  using Numbers = std::map<DeviceId, std::int64_t>;  // read up to there
  void note_readings(const Log& log);
  void note_named(const Log& log);
  void read_clocks(const Log& log);
  void add(const EntryRef& by, std::vector<EntryRef> read);
  void follow(const EntryRef& upto, Numbers& reached, std::vector<EntryRef>& open) const;

  Branches branches_;
  std::map<DeviceId, std::vector<Reading>> readings_;  // rising
};

}  // namespace engine
