// engine/order/order.h -- in which order to walk a yard, with so many vaporizers and cloths.
//
// Every colony needs three visits of the one operator: `Set` (load the dose, set the vaporizer in
// the entrance), `Cover` at least its dwell after (lift the vaporizer, close the entrance with a
// cloth), `Uncover` at least the seal after that. The operator walks in straight lines, does one
// step at a time and is finished when back at the gate. Lengths in metres, times in seconds.
//
// Pure and deterministic: the work is bounded by counts, never by a clock; the same case gives the
// same plan.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

namespace engine {

struct OrderPoint {
  double x = 0, y = 0;  // east, north
  friend bool operator==(const OrderPoint&, const OrderPoint&) = default;
};

enum class OrderStage { ToDo, Vapor, Covered, Done };
constexpr std::array<const char*, 4> enum_names(OrderStage) {
  return {"todo", "vapor", "covered", "done"};
}

struct OrderSite {
  std::string id;
  OrderPoint at;
  double dwell_s = 0;
  OrderStage stage = OrderStage::ToDo;
  double since_s = 0;  // Vapor: the end of its setting; Covered: the end of its covering
  int cloth = 0;       // Covered: the number of the cloth that lies there; 0: not said
  friend bool operator==(const OrderSite&, const OrderSite&) = default;
};

struct OrderHandling {
  double load_and_set_s = 0, lift_and_cover_s = 0, uncover_s = 0;
  friend bool operator==(const OrderHandling&, const OrderHandling&) = default;
};

struct OrderCase {
  double walk_mps = 1;
  OrderPoint gate;
  int vaporizers = 1;
  int cloths = 1;
  double seal_s = 0;  // the least seal
  OrderHandling handling;
  std::vector<OrderSite> sites;
  double now_s = 0;
  std::optional<OrderPoint> operator_at;  // the gate when not given
  std::optional<double> finish_by_s;      // lengthen the shortest seal as far as this allows
  std::optional<double> wind_from_deg;    // 0 = north, 90 = east
  friend bool operator==(const OrderCase&, const OrderCase&) = default;
};

enum class OrderDo { Set, Cover, Uncover };
constexpr std::array<const char*, 3> enum_names(OrderDo) { return {"set", "cover", "uncover"}; }

struct OrderStep {
  OrderDo act = OrderDo::Set;
  int site = 0;                   // index into OrderCase::sites
  int cloth = 0;                  // from 1; 0 for Set
  double start_s = 0, end_s = 0;  // of the work there, after walking and waiting
};

struct OrderPlan {
  double finish_s = 0;       // back at the gate
  double lower_bound_s = 0;  // no plan finishes before
  double shortest_seal_s = 0;
  double downwind_s = 0;  // 0 when no wind is given; see order_wind.h
  bool proven_optimal = false;
  std::vector<OrderStep> steps;
};

inline constexpr int kMostSites = 1000;

// One line that names the field and what is wrong with it, or empty. The functions below require
// that nothing is wrong.
[[nodiscard]] std::string what_is_wrong(const OrderCase& c);

// The best plan found. `keep`, steps still to do in an earlier plan, is one more place to start
// from; Quick does about a tenth of the work, for a plan between two taps, and Rough a tenth of
// that, where only the length of the walk is asked.
enum class OrderEffort { Full, Quick, Rough };
[[nodiscard]] OrderPlan plan_order(const OrderCase& c, OrderEffort effort = OrderEffort::Full,
                                   const std::vector<OrderStep>& keep = {});

// The keeper's own order: each colony set as soon as a vaporizer is free, the cloth that has lain
// longest taken when none is free. Improves nothing.
[[nodiscard]] OrderPlan plain_rotation(const OrderCase& c);

// The same acts in the same sequence from the case's present state, each as soon as it may be;
// nullopt when they do not fit it (another colony was treated since).
[[nodiscard]] std::optional<OrderPlan> retime(const OrderCase& c,
                                              const std::vector<OrderStep>& steps);

// The same plan with each cloth that is not needed elsewhere taken off as soon as its seal is over,
// wherever that costs no time: bees that have had enough want air, and the keeper waits anyway.
[[nodiscard]] OrderPlan air_sooner(const OrderCase& c, OrderPlan plan);

// The same plan with each setting that would stand idle (below) put behind the other steps that
// come before its covering, wherever that costs no time.
[[nodiscard]] OrderPlan set_behind(const OrderCase& c, OrderPlan plan);

// The same plan with each setting put off as far as costs no time: a vaporizer that has given its
// vapor only stands in the entrance until a cloth is free. kSpareDwell is left for a setting that
// takes longer than planned; less than `worth_s` is not put off (own choices).
inline constexpr double kSpareDwell = 15, kWorthHolding = 30;  // s
[[nodiscard]] OrderPlan set_late(const OrderCase& c, OrderPlan plan,
                                 double worth_s = kWorthHolding);

// All three: how a plan is shown and followed.
[[nodiscard]] OrderPlan polished(const OrderCase& c, OrderPlan plan);

// How many cloths to carry. `finish_s` is that at the asked seal; `longest_seal_s` the longest seal
// that so many cloths give when the walk may take no longer than one that never waits for a cloth
// (as many cloths as colonies, at the asked seal). More cloths never give a worse row.
struct ClothRow {
  int cloths = 1;
  double finish_s = 0;
  double longest_seal_s = 0;
};
[[nodiscard]] std::vector<ClothRow> cloth_table(const OrderCase& c, int from, int to,
                                                OrderEffort effort = OrderEffort::Full);

}  // namespace engine
