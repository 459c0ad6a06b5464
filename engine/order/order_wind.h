// engine/order/order_wind.h -- how long the operator is downwind of vapor. Internal to order.
//
// Downwind of a colony: within 45 degrees either side of where the wind blows to, and within 10 m.
// A colony gives off vapor from the end of its setting until it has been covered for 120 s (or
// until it is opened, if that is sooner). The operator walks at once and waits where the next act
// is; at the very spot of a colony he is not downwind of that one. Moments downwind of several
// count once.
#pragma once
#include "engine/order/order_times.h"

namespace engine::order {

[[nodiscard]] double downwind_s(const OrderCase& c, const OrderPlan& plan);

}  // namespace engine::order
