// Planning on after each entry of a walk: how long the keeper waits for the next advice, in yards
// of 8 to 100 colonies, over a whole evening with every fifth colony done out of the plan's order.
// The baseline of the same run is what the entry takes without a plan: to be applied to the farm.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "engine/farm/queries.h"
#include "engine/guide/advice.h"
#include "engine/guide/guide.h"

namespace {

using namespace engine;

template <class IdType>
IdType id(int kind, int n) {
  IdType made;
  made.bytes[0] = static_cast<std::uint8_t>(kind);
  made.bytes[14] = static_cast<std::uint8_t>(n >> 8);
  made.bytes[15] = static_cast<std::uint8_t>(n);
  return made;
}

Stamp at(double seconds) {
  Stamp s = *stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
  s.boot = "boot";
  s.since_boot = Ms{1'000'000};
  return after(s, Ms{static_cast<std::int64_t>(seconds * 1000)});
}

// One evening, each entry applied and then planned on from; times in milliseconds.
class Evening {
 public:
  Evening(int colonies, int vaporizers, int cloths) {
    const auto yard = id<YardId>(1, 1);
    const auto walk = id<WalkId>(2, 1);
    enter(0, YardAdded{yard, "Bench", {}, {}, {}});
    WalkOpened o{.walk = walk, .yard = yard};
    for (int i = 0; i < colonies; ++i) {
      ColonyAdded c{id<ColonyId>(3, i), yard, fmt::format("H{}", i + 1), 2};
      c.spot = Spot{160 * (i % 10), 250 * (i / 10)};
      enter(0, c);
      o.colonies.push_back(c.colony);
    }
    for (int i = 0; i < vaporizers; ++i) o.vaporizers.push_back(kit(KitSort::Vaporizer, i));
    for (int i = 0; i < cloths; ++i) o.cloths.push_back(kit(KitSort::Cloth, i));
    o.rules.product = "acid";
    o.rules.per_brood_box = Mass{1000};
    enter(0, o);
    for (const Protection p :
         {Protection::Respirator, Protection::EyeProtection, Protection::Gloves,
          Protection::RinseWater, Protection::NobodyDownwind})
      enter(1, ProtectionConfirmed{walk, p});
    follow(walk);
  }

  std::vector<double> planned_ms;
  double applied_ms = 0;
  int entries = 0;

 private:
  KitId kit(KitSort sort, int n) {
    const auto item = id<KitId>(10 + static_cast<int>(sort), n);
    enter(0, KitAdded{item, sort, fmt::format("{}", n)});
    return item;
  }

  void enter(double second, Body body) {
    const Event e{{id<DeviceId>(4, 1), ++entries}, at(second), std::move(body)};
    const auto begin = std::chrono::steady_clock::now();
    farm_ = apply(std::move(farm_), e);
    applied_ms += since(begin);
  }

  const Lead* plan(const Walk& walk, double second) {
    const auto begin = std::chrono::steady_clock::now();
    const Lead* lead = guide_.of(farm_, walk, dwell_, at(second));
    planned_ms.push_back(since(begin));
    return lead;
  }

  void follow(WalkId id_of_walk) {
    double clock = 2;
    for (int step = 0;; ++step) {
      const Walk& walk = farm_.walks.at(id_of_walk);
      const Lead* lead = plan(walk, clock);
      if (lead == nullptr || lead->visits.empty()) return;
      const auto set = std::find_if(lead->visits.rbegin(), lead->visits.rend(),
                                    [](const PlannedVisit& v) { return v.act == OrderDo::Set; });
      const bool astray = step % 5 == 4 && lead->visits[0].act == OrderDo::Set;
      clock = std::max(clock, lead->plan.steps.front().end_s);
      const Advice a = astray ? what_now(walk, at(clock), set->colony)
                              : what_now(walk, at(clock), {}, lead->visits);
      if (a.timer) clock += std::max(0.0, static_cast<double>(a.timer->left().count()) / 1000);
      const auto body = carry_out(walk, a, Mass{2000}, 2, false, {}, {});
      if (!body || why_not(walk, *body) != Refusal::None) return;
      enter(clock, *body);
    }
  }

  static double since(std::chrono::steady_clock::time_point begin) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
        .count();
  }

  Farm farm_;
  Guide guide_;
  DwellModel dwell_ = learn_dwell(DwellsSeen{});
};

}  // namespace

int main() {
  fmt::print("  n  vap cloths  entries  plan: median ms  nine in ten  longest   apply: mean ms\n");
  for (const int n : {8, 16, 40, 100})
    for (const auto& [v, k] : {std::pair{1, 3}, {1, 6}, {2, 6}}) {
      Evening e(n, v, k);
      std::sort(e.planned_ms.begin(), e.planned_ms.end());
      const std::size_t plans = e.planned_ms.size();
      fmt::print("{:>3} {:>4} {:>6} {:>8} {:>16.2f} {:>12.2f} {:>8.2f} {:>16.4f}\n", n, v, k, plans,
                 e.planned_ms[plans / 2], e.planned_ms[plans * 9 / 10], e.planned_ms.back(),
                 e.applied_ms / e.entries);
    }
}
