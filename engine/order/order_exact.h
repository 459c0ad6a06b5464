// engine/order/order_exact.h -- the best sequence of a small yard, proven. Internal to order.
#pragma once
#include <optional>

#include "engine/order/order_times.h"

namespace engine::order {

// Goes through all sequences, act by act; of two ways to the same state at the same place the one
// that is nowhere earlier is dropped, and so is what cannot finish before `known`. The best
// sequence that finishes before `known`, empty when there is none; nullopt when the search was
// given up after `most` partial walks, or for more than eight colonies.
[[nodiscard]] std::optional<Sequence> best_below(const OrderProblem& yard, double known,
                                                 std::size_t most);

}  // namespace engine::order
