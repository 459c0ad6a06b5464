// engine/farm/merge_order.h -- one farm from the events of several tablets.
//
// The same set of events gives the same farm, in whatever order and portions they arrived. They are
// put into one common order by a hybrid logical clock (Kulkarni et al., "Logical Physical Clocks",
// 2014, without its counter: ties go by device and number): an event's clock is its wall clock, but
// never before that of an earlier event of its tablet, and after everything that the tablet had
// taken in when it wrote ClockFollowed. A side of a fork (branches.h) goes on from the clock of
// what both sides have in common. Nothing is dropped: an entry that does not fit stays in the log
// as fallen, and contradictions.h lists what the keeper must look at.
#pragma once
#include <cstdint>
#include <map>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// What of an event its clock follows from.
struct Timed {
  Timed(const Event& e);
  EntryRef ref;
  std::int64_t wall_ms = 0;
  std::optional<std::int64_t> follows_ms;  // of ClockFollowed
};

// The clocks that have been read, per tablet. Events of one tablet must be taken by rising number,
// and what a side of a fork goes on from before the side.
class Clocks {
 public:
  Clocks() = default;
  explicit Clocks(Branches branches) : branches_(std::move(branches)) {}

  // Milliseconds since 1970. `take` remembers it.
  [[nodiscard]] std::int64_t of(const Timed& e) const;
  std::int64_t take(const Timed& e);
  // The latest one of any other tablet; nothing: there is none.
  [[nodiscard]] std::optional<std::int64_t> latest_beside(DeviceId device) const;
  [[nodiscard]] const std::map<DeviceId, std::int64_t>& all() const { return last_; }
  void set(DeviceId device, std::int64_t clock) { last_[device] = clock; }

 private:
  Branches branches_;
  std::map<DeviceId, std::int64_t> last_;
};

// What a tablet that has read these clocks must write so that `e` comes after all it has read: `e`
// alone, or ClockFollowed before it (and `e` under the next number).
[[nodiscard]] std::vector<Event> to_come_last(const Clocks& clocks, Event e);

// Each event once; of one tablet they may come in any order. The log's marks are not looked at.
[[nodiscard]] Log in_common_order(const Log& arrived, const Branches& branches = {});

// The farm after all of them, those of a side of a fork under its name. What knew nothing of the
// fork means the only side that had the number by then. Never refuses: what does not fit falls.
[[nodiscard]] Farm fold_together(const Log& arrived, Branches branches = {});
[[nodiscard]] Farm fold_together(std::vector<Event> events, Branches branches = {});

// The farm with these events taken in: as if all had been folded together, but only what comes
// after the earliest of them is folded anew. Each is new here, and of each tablet they follow what
// the farm has of it; none makes a fork, or names a number behind one. `farm` is in common order,
// as fold_together or apply (of events that came last, see to_come_last) leave it.
[[nodiscard]] Farm take_together(Farm farm, std::vector<Event> fresh);

// All of the farm with every strike left out: what falls here contradicts another entry by itself.
[[nodiscard]] Farm fold_without_strikes(const Farm& farm);

}  // namespace engine
