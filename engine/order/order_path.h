// engine/order/order_path.h -- the finish of a sequence that has changed in one stretch. Internal
// to order.
//
// The acts of a sequence are a network (critical path method, Kelley and Walker 1959): each waits
// for the act before it and the way there, a covering for its dwell, an uncovering for its seal.
// Kept are the longest path from the start to each act and from each act to the finish. When a
// stretch changes, the new finish is the longest of the paths that go through the stretch and of
// those that go past it, so that the stretch alone is timed again.
#pragma once
#include "engine/order/order_times.h"

namespace engine::order {

// A sequence, and where in it each act stands.
class IndexedSequence {
 public:
  IndexedSequence(const OrderProblem& yard, Sequence start);
  [[nodiscard]] const Sequence& seq() const { return seq_; }
  [[nodiscard]] const Act& operator[](std::size_t i) const { return seq_[i]; }
  [[nodiscard]] std::size_t size() const { return seq_.size(); }
  [[nodiscard]] std::size_t at(std::size_t site, std::size_t what) const {
    return at_[3 * site + what];
  }
  void put(std::size_t i, Act act) {
    seq_[i] = act;
    at_[3 * static_cast<std::size_t>(act.site) + static_cast<std::size_t>(act.what)] = i;
  }

 private:
  Sequence seq_;
  std::vector<std::size_t> at_;
};

struct Stretch {
  std::size_t from = 0, to = 0;  // places, both in it
};

class LongestPaths {
 public:
  LongestPaths(const OrderProblem& yard, const IndexedSequence& now);

  // What `now` has become counts; it differs from what counted before in that stretch alone.
  void settle(const IndexedSequence& now, Stretch changed);
  [[nodiscard]] double finish() const { return finish_; }
  [[nodiscard]] double walk() const { return before_.back().walk; }  // s, back to the gate

  struct Tried {
    double finish = kNever;  // or kNever: a vaporizer or cloth is not free
    double walk = 0;         // seconds of walking in all
    std::size_t timed = 0;   // acts that were timed for it
  };
  // The finish of `now` with a stretch that does not count yet; kNever where it is over `limit`,
  // and, now and then, where the end of a long stretch would win back more than kWinsBack of what
  // its beginning loses.
  static constexpr double kWinsBack = 20;  // s, own choice: more is rare, and not worth looking for
  [[nodiscard]] Tried tried(const IndexedSequence& now, Stretch changed, double limit);

 private:
  // When a covering or an uncovering may begin, in the stretch that is being tried or before.
  struct Ready {
    double settled = 0, tried = 0;
    unsigned of = 0;  // the trial that `tried` belongs to
  };
  [[nodiscard]] Ready& ready(std::size_t site, std::size_t what) {
    return ready_[2 * site + what - 1];
  }
  [[nodiscard]] double way_on(const IndexedSequence& now, std::size_t i, std::size_t place) const;
  [[nodiscard]] double longest_past(const IndexedSequence& now, Stretch changed);

  const OrderProblem& yard_;
  std::vector<Moment> before_;  // each act, and the end
  std::vector<double> tail_;    // from the beginning of the work of each act to the finish
  std::vector<Ready> ready_;    // of each site: of its covering, of its uncovering
  unsigned trial_ = 0;
  double finish_ = kNever;
};

}  // namespace engine::order
