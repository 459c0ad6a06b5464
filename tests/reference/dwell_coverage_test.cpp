// How often a dwell ends before the points that the forecast names, in invented keepers' logs: as
// the simple model says, with liftings that come late, with forgotten ones, with a pan that slows,
// with one that is cleaned, and with vaporizers that differ much or little. Seed 20261202
// throughout; 400 keepers a row. One dwell is foretold in each log, the one after its last.
//
// The truths are inventions around common practice (60 s and 15 s a gram); what they stand for is
// said beside each row. The standard error of a 0.90 of 400 is 0.015, of a 0.99 it is 0.005.
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <random>
#include <string>

#include "engine/learn/dwell.h"
#include "tests/support/evening.h"

namespace dwell_coverage_test {

using namespace engine;

namespace {

using Dice = std::mt19937_64;
using Noise = std::function<double(Dice&)>;

double normal(Dice& dice, double width) { return std::normal_distribution<double>(0, width)(dice); }

struct Truth {
  std::string name;
  int dwells = 60;  // in the log
  Noise noise = [](Dice& dice) { return normal(dice, 12); };
  double slows = 0;       // s a setting since the last cleaning
  int cleaned_every = 0;  // settings; 0: never
  int vaporizers = 1;
  double differ = 0;  // s, width of what they differ by
};

struct Log {
  DwellsSeen seen;
  Walk walk;
  KitId next;
  double truth = 0;  // of the next dwell
};

Log keeper(const Truth& t, Dice& dice) {
  Log log;
  const double base = 60 + normal(dice, 15), gram = 15 + normal(dice, 3);
  std::vector<double> own(static_cast<std::size_t>(t.vaporizers));
  for (double& o : own) o = normal(dice, t.differ);
  std::uniform_int_distribution<std::size_t> which(0, own.size() - 1);
  for (int i = 0; i <= t.dwells; ++i) {
    const std::size_t v = which(dice);
    const KitId id = evening::vaporizer(static_cast<int>(v) + 1);
    double& settings = log.seen.since_cleaned[id];
    if (t.cleaned_every > 0 && settings >= t.cleaned_every) settings = 0;
    const double grams = i == t.dwells || std::bernoulli_distribution(0.5)(dice) ? 2 : 1;
    const double seconds =
        std::max(15.0, base + gram * grams + own[v] + t.slows * settings + t.noise(dice));
    if (i == t.dwells) {
      log.next = id, log.truth = seconds;
      break;
    }
    log.seen.counted.push_back({grams, 0, id, seconds, settings});
    ++settings;
  }
  return log;
}

struct Coverage {
  double nine_in_ten = 0, ninety_nine = 0;
};

Coverage coverage(const Truth& t) {
  constexpr int kKeepers = 400;
  Dice dice(20261202);
  Coverage c;
  for (int i = 0; i < kKeepers; ++i) {
    const Log log = keeper(t, dice);
    const DwellForecast f = forecast_dwell(learn_dwell(log.seen), log.walk, Mass{2000}, log.next);
    c.nine_in_ten += log.truth <= static_cast<double>(f.nine_in_ten.count());
    c.ninety_nine += log.truth <= static_cast<double>(f.ninety_nine.count());
  }
  return {c.nine_in_ten / kKeepers, c.ninety_nine / kKeepers};
}

// A lifting is late more often than early: exponential, 20 s on the mean.
double late(Dice& dice) { return std::exponential_distribution<double>(1 / 20.0)(dice) - 20; }

// Three of a hundred are forgotten for one to four minutes.
double forgotten(Dice& dice) {
  const double off = normal(dice, 12);
  return std::bernoulli_distribution(0.03)(dice)
             ? off + std::uniform_real_distribution<double>(60, 240)(dice)
             : off;
}

}  // namespace

TEST_CASE("nine in ten dwells end before the point that says so, and 99 of 100 before theirs") {
  struct Row {
    Truth truth;
    double least_99 = 0.975;
  };
  const Row rows[] = {
      {{.name = "as the model says, 10 dwells", .dwells = 10}},
      {{.name = "as the model says, 60 dwells", .dwells = 60}},
      {{.name = "as the model says, 200 dwells", .dwells = 200}},
      {{.name = "late liftings, 60 dwells", .dwells = 60, .noise = late}},
      {{.name = "late liftings, 200 dwells", .dwells = 200, .noise = late}},
      // Of forgotten ones three of a hundred lie far out: only many dwells can tell.
      {{.name = "forgotten liftings, 60 dwells", .dwells = 60, .noise = forgotten}, 0.96},
      {{.name = "forgotten liftings, 200 dwells", .dwells = 200, .noise = forgotten}},
      {{.name = "a pan that slows 0.25 s a dwell, 200 dwells", .dwells = 200, .slows = 0.25}},
      {{.name = "the same, cleaned every 50", .dwells = 190, .slows = 0.25, .cleaned_every = 50}},
      {{.name = "four vaporizers much apart", .dwells = 60, .vaporizers = 4, .differ = 30}},
      {{.name = "four vaporizers alike", .dwells = 60, .vaporizers = 4, .differ = 2}},
  };
  for (const Row& r : rows) {
    const Coverage c = coverage(r.truth);
    CAPTURE(r.truth.name);
    INFO(c.nine_in_ten << " " << c.ninety_nine);
    CHECK(c.nine_in_ten >= 0.85);
    CHECK(c.nine_in_ten <= 0.95);
    CHECK(c.ninety_nine >= r.least_99);
  }
}

}  // namespace dwell_coverage_test
