#include "engine/guide/foresee.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

// As much of the seal as is back in time.
Foreseen within(const OrderCase& c, SealWish wish, const Foreseen& whole, Seconds least,
                double finish_by) {
  if (whole.plan.finish_s <= finish_by) return {wish, whole.plan, whole.seal};
  OrderCase less = c;
  less.seal_s = std::min(c.seal_s, static_cast<double>(least.count()));
  less.finish_by_s = finish_by;
  Foreseen f{wish, plan_order(less)};
  f.seal = Seconds{static_cast<std::int64_t>(std::min(f.plan.shortest_seal_s, c.seal_s))};
  f.shortened = f.seal < whole.seal;
  less.seal_s = static_cast<double>(f.seal.count());
  if (const auto timed = retime(less, f.plan.steps)) f.plan = polished(less, *timed);
  return f;
}

double without_waiting(const OrderCase& c) {
  OrderCase many = c;
  many.cloths = std::max(c.cloths, static_cast<int>(c.sites.size()));
  return plan_order(many).finish_s;
}

int minutes(double s) { return static_cast<int>(std::lround(s / 60)); }

std::string cloths(int n) { return n == 1 ? "1 cloth" : fmt::format("{} cloths", n); }

}  // namespace

Foreseen foresee(const OrderCase& c, SealWish wish, Seconds least, std::optional<double> light_s) {
  Foreseen whole{SealWish::Whole, polished(c, plan_order(c)), Seconds{std::lround(c.seal_s)}};
  if (wish == SealWish::NoWaiting) return within(c, wish, whole, least, without_waiting(c));
  if (wish == SealWish::ByDusk && light_s)
    return within(c, wish, whole, least, std::max(c.now_s, *light_s));
  return whole;
}

Foreseen foresee(const OrderCase& c, Seconds least, std::optional<double> light_s) {
  Foreseen f = foresee(c, light_s ? SealWish::ByDusk : SealWish::Whole, least, light_s);
  if (!f.shortened) f.wish = SealWish::Whole;
  return f;
}

Seconds one_more_cloth(const OrderCase& c) {
  const auto rows = cloth_table(c, c.cloths, c.cloths + 1, OrderEffort::Quick);
  if (rows.size() != 2) return {};
  return Seconds{std::lround(rows[0].finish_s - rows[1].finish_s)};
}

std::optional<BestBuy> best_buy(const std::vector<ClothRow>& rows, int own) {
  auto at =
      std::find_if(rows.begin(), rows.end(), [&](const ClothRow& r) { return r.cloths == own; });
  if (at == rows.end()) return std::nullopt;
  const double now = at->finish_s;
  const auto gain = [&] { return at + 1 == rows.end() ? 0 : at->finish_s - (at + 1)->finish_s; };
  while (gain() >= kWorthACloth) ++at;
  return BestBuy{at->cloths, now - at->finish_s, gain()};
}

std::string words(const BestBuy& buy, int own) {
  if (buy.cloths == own)
    return fmt::format("Your {} {} enough: one more saves {}.", cloths(own),
                       own == 1 ? "is" : "are",
                       buy.one_more_s < 1 ? "nothing" : "less than a minute");
  return fmt::format("Best buy: {}, {} min sooner than with {}; one more saves {}.",
                     cloths(buy.cloths), minutes(buy.saves_s), own,
                     buy.one_more_s < 1 ? "nothing" : "less than a minute");
}

}  // namespace engine
