// engine/order/order_times.h -- a sequence of acts and the times that follow. Internal to order.
//
// One operator does one act after the other, so a sequence fixes everything: done as soon as each
// act may begin, no act of it could end earlier (each start is the largest of times that the acts
// before it made as early as possible). A plan is therefore searched for among sequences alone.
#pragma once
#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

#include "engine/order/order.h"

namespace engine::order {

inline constexpr double kNever = std::numeric_limits<double>::infinity();

struct Act {
  std::int16_t site = 0;
  std::int8_t what = 0;  // 0 set, 1 cover, 2 uncover
  friend bool operator==(const Act&, const Act&) = default;
};
using Sequence = std::vector<Act>;

// The case as numbers. Places: one for each site, then the start, then the gate.
class OrderProblem {
 public:
  explicit OrderProblem(const OrderCase& c, double seal_s);

  [[nodiscard]] double walk(std::size_t from, std::size_t to) const {
    return walk_[from * places_ + to];
  }
  [[nodiscard]] std::size_t start() const { return sites; }
  [[nodiscard]] std::size_t gate() const { return sites + 1; }

  std::size_t sites = 0;
  double now = 0;
  double seal = 0;
  double handling[3] = {};  // by Act::what
  std::vector<double> dwell;
  std::vector<int> first;          // of each site: its next act; 3: it is done
  std::vector<double> since;       // the end of the act before that one
  int vaporizers = 0, cloths = 0;  // in all
  int free_vaporizers = 0, free_cloths = 0;
  std::size_t acts = 0;  // still to do

 private:
  std::size_t places_ = 0;
  std::vector<double> walk_;  // seconds
};

// The state before an act.
struct Moment {
  double t = 0;
  double walk = 0;  // s, till then
  std::size_t place = 0;
  int vaporizers = 0, cloths = 0;  // free
};

inline Moment beginning(const OrderProblem& yard) {
  return {yard.now, 0, yard.start(), yard.free_vaporizers, yard.free_cloths};
}

// Does the act as soon as it can be done; false: what it takes is not free.
inline bool step(const OrderProblem& yard, Moment& m, const Act& act, double ready_at) {
  const double way = yard.walk(m.place, static_cast<std::size_t>(act.site));
  m.t += way;
  m.walk += way;
  m.place = static_cast<std::size_t>(act.site);
  m.vaporizers += act.what == 0 ? -1 : act.what == 1 ? 1 : 0;
  m.cloths += act.what == 1 ? -1 : act.what == 2 ? 1 : 0;
  m.t = std::max(m.t, ready_at) + yard.handling[act.what];
  return m.vaporizers >= 0 && m.cloths >= 0;
}

// From the end of a setting or a covering until the next act of its site may begin.
inline double wait_after(const OrderProblem& yard, const Act& act) {
  return act.what == 0 ? yard.dwell[static_cast<std::size_t>(act.site)] : yard.seal;
}

// When the site's next act may begin, as far as the time now says.
inline double ready_at_first(const OrderProblem& yard, std::size_t site) {
  return yard.first[site] == 1   ? yard.since[site] + yard.dwell[site]
         : yard.first[site] == 2 ? yard.since[site] + yard.seal
                                 : yard.now;
}

// Walks a sequence.
class SequenceTimer {
 public:
  explicit SequenceTimer(const OrderProblem& yard);

  // The finish, or kNever when the sequence asks for what is not free. Acts of one site must stand
  // in their order.
  double time(const Sequence& seq);
  [[nodiscard]] const std::vector<double>& ends() const { return ends_; }  // of what was timed last

 private:
  const OrderProblem& yard_;
  std::vector<double> ends_;
  std::vector<double> ready_;  // of each site: when its next act may begin
};

// Steps with times and cloths of a sequence that fits.
[[nodiscard]] OrderPlan plan_of(const OrderCase& c, const OrderProblem& yard, const Sequence& seq);

// A number that no plan of this yard can finish before.
[[nodiscard]] double lower_bound(const OrderProblem& yard);

}  // namespace engine::order
