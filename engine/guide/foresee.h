// engine/guide/foresee.h -- a walk that is not open yet: when it would end, and how long each
// entrance would stay closed.
//
// With few cloths the whole seal costs waiting. How much of it is worth that is the keeper's
// choice; where the light runs out first, the longest seal that ends in time is proposed.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/instant.h"
#include "engine/order/order.h"

namespace engine {

enum class SealWish {
  Whole,      // the goal of the rules, however long the walk takes
  ByDusk,     // as long as ends before the last light
  NoWaiting,  // as long as cloths enough for every colony would take
};
constexpr std::array<const char*, 3> enum_names(SealWish) {
  return {"whole", "by_dusk", "no_waiting"};
}

struct Foreseen {
  SealWish wish = SealWish::Whole;
  OrderPlan plan;
  Seconds seal{};          // what each entrance gets at least; never above the goal
  bool shortened = false;  // less than the goal
};

// `c` is the walk at its opening, its seal the goal. `least`: no seal is planned shorter.
// `light_s`: seconds from the opening to the last light; needed for ByDusk. Where not even the
// least seal ends in time, the plan with the least seal comes back and ends late.
[[nodiscard]] Foreseen foresee(const OrderCase& c, SealWish wish, Seconds least,
                               std::optional<double> light_s);

// The whole seal while it ends before the last light, else as much of it as does.
[[nodiscard]] Foreseen foresee(const OrderCase& c, Seconds least, std::optional<double> light_s);

// How much sooner the walk would end, each seal whole, with one cloth more; never below 0.
[[nodiscard]] Seconds one_more_cloth(const OrderCase& c);

// Which number of cloths to carry, from the rows of cloth_table() for 1, 2, 3, ... cloths: the
// least, not below the keeper's own, to which one more would add less than a minute (own choice).
struct BestBuy {
  int cloths = 0;
  double saves_s = 0;     // beside the keeper's own number
  double one_more_s = 0;  // what the next one would save
};
inline constexpr double kWorthACloth = 60;  // s
// nullopt: the rows do not hold the keeper's own number.
[[nodiscard]] std::optional<BestBuy> best_buy(const std::vector<ClothRow>& rows, int own);
// "Best buy: 5 cloths, 14 min sooner than with 3; a 6th saves under a minute."
[[nodiscard]] std::string words(const BestBuy& buy, int own);

}  // namespace engine
