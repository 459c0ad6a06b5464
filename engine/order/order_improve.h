// engine/order/order_improve.h -- making a sequence better by many small changes. Internal to
// order.
#pragma once
#include <functional>

#include "engine/order/order_times.h"

namespace engine::order {

// Numbers that look random and are the same everywhere (splitmix64, Steele et al. 2014).
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::uint64_t roll();
  // 0 to n - 1; n below 2^32.
  std::size_t below(std::size_t n) {
    return static_cast<std::size_t>(((roll() >> 32) * static_cast<std::uint64_t>(n)) >> 32);
  }

 private:
  std::uint64_t state_;
};

struct Improved {
  Sequence seq;
  double finish = kNever;
};

// Threshold accepting (Dueck, Scheuer 1990): changes that cost less than a threshold are taken, and
// the threshold falls from `hot` seconds to nothing while `acts_timed` acts are timed, or as much
// other work is done. Returns the best sequence met, never worse than `start`. Stops early at
// `good_enough`.
[[nodiscard]] Improved improve(const OrderProblem& yard, const Sequence& start, double acts_timed,
                               double hot, double good_enough, Dice dice);

// The same, over so many changes, for any cost that a whole sequence has.
using Cost = std::function<double(const Sequence&)>;
[[nodiscard]] Sequence improve_cost(const OrderProblem& yard, const Sequence& start,
                                    std::size_t tries, double hot, const Cost& cost, Dice dice);

}  // namespace engine::order
