#include "engine/guide/guide.h"

#include <algorithm>
#include <cmath>

#include "engine/guide/advice.h"
#include "tests/support/evening.h"

namespace guide_test {

using namespace evening;

namespace {

// No dwell was seen yet: common practice alone.
DwellModel practice() { return learn_dwell(DwellsSeen{}); }

int whole(double seconds) { return static_cast<int>(std::ceil(seconds)); }

// A yard in two rows, three metres apart, its walk opened with the plan of that moment.
Keeper planned_walk(int colonies, int cloths, int vaporizers = 1) {
  Keeper k = keeper_with(colonies, cloths, vaporizers);
  for (int i = 1; i <= colonies; ++i) {
    ColonyChanged c{.colony = colony(i)};
    c.spot = Spot{300 * ((i - 1) / 2), 400 * ((i - 1) % 2)};
    k.does(at(0), c);
  }
  WalkOpened o = opening(k);
  const Walk to_be = walk_to_be(o, at(0));
  const auto c = case_of(k.farm, to_be, practice(), at(0));
  REQUIRE(c);
  o.planned = visits_of(to_be, plan_order(*c, OrderEffort::Quick).steps);
  k.does(at(0), o);
  confirm_all(k);
  return k;
}

Body body_of(const PlannedVisit& v) {
  VaporizerSet s{walk(), v.colony, vaporizer(1), battery(1), lot(), Mass{2000}, 2, false};
  if (v.act == OrderDo::Set) return s;
  if (v.act == OrderDo::Cover) return ColonyCovered{walk(), v.colony, *v.cloth};
  return ColonyUncovered{walk(), v.colony};
}

// Carries the advice out as the plan times it; returns the taps.
int follow_plan(Keeper& k, Guide& guide, double& clock) {
  int taps = 0;
  const Lead* lead = guide.of(k.farm, k.now(), practice(), at(whole(clock)));
  while (lead && !lead->visits.empty()) {
    const Advice due = what_now(k.now(), at(whole(clock)), {}, lead->visits);
    const auto step =
        std::find_if(lead->plan.steps.begin(), lead->plan.steps.end(), [&](const OrderStep& s) {
          return k.now().stops[static_cast<std::size_t>(s.site)].colony == due.colony;
        });
    REQUIRE(step != lead->plan.steps.end());
    clock = std::max(clock, step->end_s);
    const Advice then = what_now(k.now(), at(whole(clock)), {}, lead->visits);
    k.does(at(whole(clock)), *carry_out(k.now(), then, Mass{2000}, 2, false, battery(1), lot()));
    REQUIRE(++taps < 1000);
    lead = guide.of(k.farm, k.now(), practice(), at(whole(clock)));
  }
  return taps;
}

}  // namespace

TEST_CASE("the case tells the planner where everything stands") {
  Keeper k = on_a_walk(4, 2);
  k.does(at(10), set(1));
  k.does(at(110), cover(1, 2));
  k.does(at(130), set(2));
  k.does(at(140), ColonyPassedOver{walk(), colony(3), PassReason::DeadOut});
  const auto c = case_of(k.farm, k.now(), practice(), at(150));
  REQUIRE(c);
  CHECK(c->now_s == 150);
  CHECK(c->seal_s == 600);
  CHECK(c->sites[0].stage == OrderStage::Covered);
  CHECK(c->sites[0].since_s == 110);
  CHECK(c->sites[0].cloth == 2);
  CHECK(c->sites[1].stage == OrderStage::Vapor);
  CHECK(c->sites[1].since_s == 130);
  CHECK(c->sites[1].dwell_s >= 90);
  CHECK(c->sites[2].stage == OrderStage::Done);
  CHECK(c->sites[3].stage == OrderStage::ToDo);
  CHECK(c->operator_at->x == c->sites[1].at.x);
}

TEST_CASE("colonies without a spot stand in a row; the gate is where the keeper said") {
  Keeper k = keeper_with(3, 1);
  YardChanged gate{.yard = yard()};
  gate.gate = Spot{-500, 250};
  k.does(at(0), gate);
  const auto c = case_of_yard(k.farm, yard(), practice(), at(0));
  REQUIRE(c);
  CHECK(c->sites[2].at.x == 4);
  CHECK(c->gate.x == -5);
  CHECK(c->gate.y == 2.5);
}

TEST_CASE("there is no plan without a cloth or a vaporizer") {
  CHECK_FALSE(case_of_yard(keeper_with(3, 0).farm, yard(), practice(), at(0)));
  CHECK_FALSE(case_of_yard(keeper_with(3, 1, 0).farm, yard(), practice(), at(0)));
  CHECK_FALSE(case_of_yard(keeper_with(0, 1).farm, yard(), practice(), at(0)));
}

TEST_CASE("a keeper who follows the plan is done when it says, every seal whole") {
  for (const int colonies : {1, 3, 5})
    for (const int cloths : {1, 3})
      for (const int vaporizers : {1, 2}) {
        INFO(colonies << " colonies, " << cloths << " cloths, " << vaporizers << " vaporizers");
        Keeper k = planned_walk(colonies, cloths, vaporizers);
        Guide guide;
        double clock = 2;
        const double promised = guide.of(k.farm, k.now(), practice(), at(2))->plan.finish_s;
        const int taps = follow_plan(k, guide, clock);
        CHECK(complete(k.now()));
        CHECK(taps <= 3 * colonies);
        // Taps fall on whole seconds here, and one tap stands for cloth off and on.
        CHECK(clock <= promised + 1.5 * taps + 16 * colonies);
        for (const Stop& s : k.now().stops)
          CHECK(seal_of(s.treatments.back())->length >= std::chrono::seconds{600});
      }
}

TEST_CASE("what is done falls out of the plan and the rest stays as it was") {
  Keeper k = planned_walk(6, 2);
  Guide guide;
  const std::vector<PlannedVisit> before = guide.of(k.farm, k.now(), practice(), at(2))->visits;
  k.does(at(30), body_of(before[0]));
  const Lead* after = guide.of(k.farm, k.now(), practice(), at(30));
  REQUIRE(after->visits.size() == before.size() - 1);
  for (std::size_t i = 0; i < after->visits.size(); ++i) {
    CHECK(after->visits[i].act == before[i + 1].act);
    CHECK(after->visits[i].colony == before[i + 1].colony);
  }
}

TEST_CASE("after a wrong tap is struck the plan is what it was before") {
  Keeper k = planned_walk(8, 3);
  Guide guide;
  const std::vector<PlannedVisit> before = guide.of(k.farm, k.now(), practice(), at(2))->visits;
  k.does(at(3), body_of(before[0]));
  (void)guide.of(k.farm, k.now(), practice(), at(3));
  k.does(at(5), EntryStruck{k.farm.log.back()->event.ref, "wrong tap"});
  const Lead* after = guide.of(k.farm, k.now(), practice(), at(5));
  REQUIRE(after->visits.size() == before.size());
  for (std::size_t i = 0; i < before.size(); ++i) {
    CHECK(after->visits[i].act == before[i].act);
    CHECK(after->visits[i].colony == before[i].colony);
  }
}

TEST_CASE("a keeper who does something else is followed") {
  Keeper k = planned_walk(6, 2);
  Guide guide;
  const Lead* lead = guide.of(k.farm, k.now(), practice(), at(2));
  const ColonyId last = lead->visits.back().colony;
  VaporizerSet other = set(1);
  other.colony = last;
  k.does(at(30), other);
  lead = guide.of(k.farm, k.now(), practice(), at(30));
  REQUIRE(lead);
  CHECK(lead->visits.size() == 3 * 6 - 1);
  const Advice now = what_now(k.now(), at(30), {}, lead->visits);
  CHECK(now.colony == last);
  k.does(at(60), ColonyPassedOver{walk(), lead->visits[1].colony, PassReason::TooWeak});
  CHECK(guide.of(k.farm, k.now(), practice(), at(60))->visits.size() == 3 * 5 - 1);
}

TEST_CASE("after a crash in mid-walk the plan is the one it set out with") {
  Keeper k = planned_walk(8, 3);
  Guide guide;
  double clock = 2;
  for (int i = 0; i < 9; ++i) {
    const Lead* lead = guide.of(k.farm, k.now(), practice(), at(whole(clock)));
    clock = std::max(clock, lead->plan.steps.front().end_s);
    k.does(at(whole(clock)), body_of(lead->visits.front()));
  }
  const Lead* before = guide.of(k.farm, k.now(), practice(), at(whole(clock)));
  Guide restarted;
  const Lead* after = restarted.of(k.farm, k.now(), practice(), at(whole(clock)));
  REQUIRE(before->visits.size() == after->visits.size());
  for (std::size_t i = 0; i < after->visits.size(); ++i)
    CHECK(before->visits[i] == after->visits[i]);
}

TEST_CASE("the plan changes its mind only for more than twenty seconds") {
  Keeper k = planned_walk(7, 3, 2);
  Guide guide;
  std::uint32_t dice = 7;
  int second = 2;
  for (int i = 0; i < 25 && !complete(k.now()); ++i) {
    const Lead old = *guide.of(k.farm, k.now(), practice(), at(second));
    dice = dice * 1'664'525U + 1'013'904'223U;
    second =
        std::max(second, whole(old.plan.steps.front().end_s)) + static_cast<int>(dice >> 8) % 60;
    const Advice a = what_now(k.now(), at(second), {}, old.visits);
    k.does(at(second), *carry_out(k.now(), a, Mass{2000}, 2, false, battery(1), lot()));
    const Lead* now = guide.of(k.farm, k.now(), practice(), at(second));
    const auto kept = retime(now->from, still_to_do(now->from, old.plan.steps));
    REQUIRE(kept);
    const OrderPlan same_steps = polished(now->from, *kept);
    const bool same = visits_of(k.now(), same_steps.steps) == now->visits;
    CHECK((same || now->plan.finish_s < kept->finish_s - kWorthAChange));
  }
}

TEST_CASE("a cloth that goes straight to the next colony is one step, waited for in full") {
  Keeper k = planned_walk(2, 1);
  const std::vector<PlannedVisit> plan = k.now().planned;
  REQUIRE(plan.size() == 6);
  k.does(at(20), body_of(plan[0]));
  k.does(at(120), body_of(plan[1]));
  k.does(at(140), body_of(plan[2]));
  const std::span<const PlannedVisit> rest = std::span(plan).subspan(3);
  const Advice early = what_now(k.now(), at(400), {}, rest);
  CHECK(early.what == Do::WaitForDwell);
  CHECK(early.colony == plan[2].colony);
  CHECK(early.cloth_from->colony == plan[0].colony);
  CHECK(early.timer->left() == Seconds{320});
  CHECK(what_now(k.now(), at(720), {}, rest).what == Do::Cover);
  const auto next = steps_after(k.now(), at(720), 3, {}, rest);
  REQUIRE(next.size() == 1);
  CHECK(next[0].what == Do::WaitForSeal);
}

TEST_CASE("a cloth whose seal is over comes off while the keeper waits anyway") {
  // Three closed, 1 the longest; the plan waits for 3 first and leaves 1 for last.
  Keeper k = on_a_walk(3, 3);
  for (int n = 1; n <= 3; ++n) {
    k.does(at(n * 200), set(n));
    k.does(at(n * 200 + 100), cover(n, n));
  }
  const auto c = case_of(k.farm, k.now(), practice(), at(950));
  REQUIRE(c);
  const auto late =
      retime(*c, {{OrderDo::Uncover, 2, 3}, {OrderDo::Uncover, 1, 2}, {OrderDo::Uncover, 0, 1}});
  REQUIRE(late);
  const OrderPlan aired = air_sooner(*c, *late);
  CHECK(aired.steps.front().site == 0);
  CHECK(aired.finish_s <= late->finish_s + 0.5);
  CHECK(aired.steps.size() == 3);
}

TEST_CASE("nothing is set before a cloth will be free for it, and that costs no time") {
  for (const int vaporizers : {1, 2}) {
    INFO(vaporizers << " vaporizers");
    Keeper k = planned_walk(6, 2, vaporizers);
    Guide guide;
    const Lead* lead = guide.of(k.farm, k.now(), practice(), at(2));
    const auto soonest = retime(lead->from, lead->plan.steps);
    REQUIRE(soonest);
    CHECK(lead->plan.finish_s == doctest::Approx(soonest->finish_s));
    for (const OrderStep& s : lead->plan.steps) {
      if (s.act != OrderDo::Cover) continue;
      const auto set = std::find_if(lead->plan.steps.begin(), lead->plan.steps.end(),
                                    [&](const OrderStep& o) { return o.site == s.site; });
      const double stands = s.start_s - set->end_s;
      CHECK(stands >= lead->from.sites[static_cast<std::size_t>(s.site)].dwell_s);
      // One vaporizer has nothing else to wait for; with two, one may wait for the hands as well.
      if (vaporizers == 1) CHECK(stands <= 90 + kSpareDwell + kWorthHolding);
    }
  }
}

TEST_CASE("while a setting is held back the advice says how long; set at once, it is followed") {
  Keeper k = planned_walk(3, 1);
  Guide guide;
  double clock = 2;
  for (int i = 0; i < 2; ++i) {
    const Lead* lead = guide.of(k.farm, k.now(), practice(), at(whole(clock)));
    clock = std::max(clock, lead->plan.steps.front().end_s);
    k.does(at(whole(clock)), body_of(lead->visits.front()));
  }
  const int covered = whole(clock);
  const auto asked = [&](int second) {
    const Lead* lead = guide.of(k.farm, k.now(), practice(), at(second));
    return what_now(k.now(), at(second), {}, lead->visits, lead->hold);
  };
  const Advice first = asked(covered);
  REQUIRE(first.what == Do::Set);
  CHECK(first.hold > Seconds{400});  // a seal of 600 s, less a dwell of 90, the ways and the spare
  CHECK(first.hold < Seconds{500});
  CHECK(asked(covered + 60).hold == first.hold - Seconds{60});
  CHECK(asked(covered + 480).hold <= Seconds{20});
  CHECK(asked(covered + 550).hold == Ms{0});
  const ColonyId next = first.colony;
  k.does(at(covered + 30), *carry_out(k.now(), first, Mass{2000}, 2, false, battery(1), lot()));
  CHECK(asked(covered + 40).what == Do::WaitForDwell);
  CHECK(waits_for_cloth(k.now(), find_stop(k.now(), next)->treatments.back()));
}

TEST_CASE("seals to be are those of the plan") {
  Keeper k = planned_walk(5, 2);
  Guide guide;
  const Lead* lead = guide.of(k.farm, k.now(), practice(), at(2));
  for (int i = 1; i <= 5; ++i) {
    const auto seal = seal_to_be(k.now(), *lead, colony(i));
    REQUIRE(seal);
    CHECK(*seal >= Seconds{600});
  }
}

TEST_CASE("a pace out of range is refused by name") {
  struct Row {
    std::string name;
    Pace pace;
    std::string wrong;
  };
  const Row rows[] = {
      {"the usual", {}, ""},
      {"slowest", {100, Seconds{1}, Seconds{1}, Seconds{1}}, ""},
      {"too slow", {99}, "walk_mm_s: must be from 100 to 3000"},
      {"too fast", {3001}, "walk_mm_s: must be from 100 to 3000"},
      {"no time to set", {1100, Seconds{0}}, "load_and_set: must be from 1 to 600 seconds"},
      {"ages to uncover",
       {1100, Seconds{20}, Seconds{10}, Seconds{601}},
       "uncover: must be from 1 to 600 seconds"}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(what_is_wrong(r.pace) == r.wrong);
  }
  Keeper k = keeper_with(1, 1);
  CHECK(k.asks(at(1), SetupChanged{.pace = Pace{99}}) == Refusal::OutOfRange);
}

TEST_CASE("a plan of colonies or cloths that are not in the walk is refused") {
  Keeper k = keeper_with(2, 1);
  WalkOpened o = opening(k);
  o.planned = std::vector<PlannedVisit>{{OrderDo::Set, colony(9), {}, Seconds{0}, Seconds{20}}};
  CHECK(k.asks(at(0), o) == Refusal::OutOfRange);
  o.planned->front() = {OrderDo::Cover, colony(1), cloth(5), Seconds{0}, Seconds{20}};
  CHECK(k.asks(at(0), o) == Refusal::OutOfRange);
  o.planned->front() = {OrderDo::Cover, colony(1), cloth(1), Seconds{30}, Seconds{20}};
  CHECK(k.asks(at(0), o) == Refusal::OutOfRange);
  o.planned->front() = {OrderDo::Cover, colony(1), cloth(1), Seconds{10}, Seconds{20}};
  CHECK(k.asks(at(0), o) == Refusal::None);
}

}  // namespace guide_test
