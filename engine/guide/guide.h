// engine/guide/guide.h -- the walk as a case for the planner, and the plan that leads the keeper.
//
// The plan is made anew after every entry of the log, but it never changes its mind without a
// reason: the old one stays while it fits and no other is quicker by more than kWorthAChange. A
// keeper who does something else is followed: what was done falls out of the plan, the rest is
// planned from there.
#pragma once
#include <optional>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/learn/dwell.h"

namespace engine {

inline constexpr double kWorthAChange = 20;  // s

// The walk as it stands at `now`, in seconds since it was opened and metres. Sites are its stops in
// their order. A colony without a spot is taken to stand two metres east of the one before it (own
// choice); the gate, where nobody said, where the first colony stands. A colony to do dwells as
// long as the rules ask, or as long as half of its dwells took, whichever is longer. The seal is
// the goal of the walk's rules. nullopt: nothing that the planner could order (no vaporizer, no
// cloth, more than kMostSites colonies).
[[nodiscard]] std::optional<OrderCase> case_of(const Farm& farm, const Walk& walk,
                                               const DwellModel& dwell, const Stamp& now);

// The walk that the event would open, at its first moment.
[[nodiscard]] Walk walk_to_be(const WalkOpened& opened, const Stamp& now);

// These colonies of the yard with all kit that is not retired, on its way at `now`; nullopt also
// when there is no colony. And all colonies of the yard.
[[nodiscard]] std::optional<OrderCase> case_of_colonies(const Farm& farm, YardId yard,
                                                        const std::vector<const Colony*>& colonies,
                                                        const DwellModel& dwell, const Stamp& now);
[[nodiscard]] std::optional<OrderCase> case_of_yard(const Farm& farm, YardId yard,
                                                    const DwellModel& dwell, const Stamp& now);

// The steps in the walk's own words, and back. Visits of colonies or cloths that are not in the
// walk are left out.
[[nodiscard]] std::vector<PlannedVisit> visits_of(const Walk& walk,
                                                  const std::vector<OrderStep>& steps);
[[nodiscard]] std::vector<OrderStep> steps_of(const Walk& walk,
                                              const std::vector<PlannedVisit>& visits);

// Those of `steps` that the case has still before it.
[[nodiscard]] std::vector<OrderStep> still_to_do(const OrderCase& c,
                                                 const std::vector<OrderStep>& steps);

// What leads the keeper now.
struct Lead {
  OrderCase from;                    // the walk as it stands
  OrderPlan plan;                    // the rest, polished
  std::vector<PlannedVisit> visits;  // the same in the walk's words
  Ms hold{};                         // a first setting may wait so long without costing time
  bool put_off = false;              // it did wait, or still does
};

// The seal the colony will have had when its cloth is off; nullopt: it gets none by this plan.
[[nodiscard]] std::optional<Ms> seal_to_be(const Walk& walk, const Lead& lead, ColonyId colony);

// Remembers the plan from entry to entry. Plans only when the log has grown; between two entries
// the same steps are timed from now, once a second. After a start (or a crash in mid-walk) it goes
// on with what the walk set out with, as far as that fits.
class Guide {
 public:
  // nullptr: there is no plan (see case_of). Good until the next call.
  [[nodiscard]] const Lead* of(const Farm& farm, const Walk& walk, const DwellModel& dwell,
                               const Stamp& now);

 private:
  void plan(const Walk& walk, OrderCase c);
  void time_again(const Walk& walk, OrderCase c);

  WalkId walk_;
  std::size_t entries_ = 0;
  Seconds second_{};
  std::optional<Lead> lead_;
};

}  // namespace engine
