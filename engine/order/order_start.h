// engine/order/order_start.h -- sequences to start the search from. Internal to order.
#pragma once
#include "engine/order/order_times.h"

namespace engine::order {

// Plans by plain rules. Every result is a complete sequence that fits.
//
// rotation: engine/order/order.h, plain_rotation.
[[nodiscard]] Sequence rotation(const OrderProblem& yard);

// At each moment the act that can begin first, with these thumbs on the scale (seconds): a positive
// one puts the kind of act off, `far` weighs the walk, `ahead` the colony's place in the given
// order.
struct Leaning {
  double set = 0, cover = 0, uncover = 0;
  double far = 0;
  double ahead = 0;
};
[[nodiscard]] Sequence by_leaning(const OrderProblem& yard, const Leaning& leaning);

}  // namespace engine::order
