// storage/answers/order_json.h -- a yard to be walked as JSON (RFC 8259), and the plan as JSON.
//
//   {"walk_mps": 1.1, "gate": [-8, -5], "vaporizers": 1, "cloths": 3, "seal_s": 600,
//    "handling_s": {"load_and_set": 20, "lift_and_cover": 10, "uncover": 6},
//    "colonies": [{"id": "A1", "at": [0, 0], "dwell_s": 90}]}
//
// Optional: now_s, operator_at, finish_by_s, wind_from_deg; on a colony stage (todo, vapor,
// covered, done), since_s and cloth. Unknown keys are refused by name.
#pragma once
#include <string>
#include <string_view>

#include "engine/core/status.h"
#include "engine/order/order.h"

namespace storage {

// BadInput with the field and what is wrong with it.
[[nodiscard]] engine::Result<engine::OrderCase> read_order_case(std::string_view text);

// One object on several lines: finish_s, lower_bound_s, shortest_seal_s, downwind_s, proven_optimal
// and the steps, with every digit of a double.
[[nodiscard]] std::string order_plan_json(const engine::OrderCase& c,
                                          const engine::OrderPlan& plan);

}  // namespace storage
