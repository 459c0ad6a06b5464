// engine/mites/colony.h -- one colony as the mite model sees it: bees, brood, queen, and constants.
//
// Expected values, no chance; one step is a day, day 0 is today, negative days are history. The
// mites do not harm the bees here and do not crowd: twice the mites at the start give twice the
// mites ever after. Not valid above about 15 mites per 100 bees, in collapsing or robbed colonies,
// across swarms, or for resistant stock.
//
// Sources: [Boot 1995] Boot, Schoenmaker, Calis, Beetsma, Apidologie 26:109-118. Values marked
// "assumed" are this project's own and have no published source.
#pragma once
#include <vector>

#include "engine/mites/curve.h"

namespace engine::mites {

// Ages in days since the egg was laid.
struct BroodDays {
  int cap = 9;      // first capped age
  int emerge = 21;  // nominal; at least cap + 2
};

struct Constants {
  BroodDays worker{9, 21};          // textbook
  BroodDays drone{10, 24};          // textbook
  double early_share = 0.25;        // of a cohort opens a day before its nominal age; assumed
  double late_share = 0.25;         // a day after; assumed
  double worker_survival = 0.85;    // egg to capping; assumed
  double drone_survival = 0.75;     // assumed
  double bee_mass_g = 0.125;        // 0.10-0.14
  double invasion_worker_g = 0.56;  // grams of bees per cell and day [Boot 1995: 6.49 / 11.6]
  double invasion_drone_g = 6.49;   // [Boot 1995: -ln(0.05) * 1000 / 462]
  double mother_survival = 0.80;    // of one cell; assumed, 0.7-0.9
  double daughters_worker = 1.0;    // viable, for each mother; extension literature: about 1
  double daughters_drone = 2.0;     // about 2
  double emergence_loss = 0.23;     // assumed, so that a year of brood gives about 800-fold
  int residual_days = 3;            // after a round; assumed
  double residual_rate = 0.05;      // per day; assumed, no measurement found
  double wash_recovery = 0.90;      // of the mites on the bees; a shaker recovers > 90 %
  double nest_bias = 1.0;           // 2: bees from the brood nest carry about twice the mites
  int warmup_days = 120;            // before day 0, until the ages of the brood mites are settled
  double kill_max = 0.98;           // engine/mites/treatment.h: dose to kill; assumed
  double dose_scale_exposed_g = 0.42;
  double dose_scale_field_g = 2.60;
};

// The queen does not lay on days from, ..., until - 1.
struct Cage {
  int from = 0;
  int until = 0;  // after `from`
};

struct Colony {
  double adults = 0;          // workers on day 0, above 0
  bool adults_fixed = false;  // held, or following emergence and death
  Curve lifespan = 30.0;      // days of an adult, above 0; about 30 in summer, 120-150 in winter
  Curve worker_eggs = 0.0;    // laid per day
  Curve drone_eggs = 0.0;
  std::vector<Cage> cages;       // any order, may overlap
  Curve immigration = 0.0;       // mites per day from other colonies
  Curve phoretic_death = 0.006;  // per day on bees; 0.002 in a winter cluster
  Constants constants;
};

// What was counted on day 0.
enum class LoadUnit { WashPer100, OnBees, All };
struct MiteLoad {
  LoadUnit unit = LoadUnit::WashPer100;
  double value = 0;
};

// Mites by where they are. The index of a brood list is days since capping.
struct MitePool {
  double on_bees = 0;
  std::vector<double> in_worker, in_drone;
};

// Morning of a day, before anything is done.
struct ColonyState {
  std::vector<double> worker_cells, drone_cells;  // by age in days
  MitePool mites;
  double adults = 0;
  int residual_days = 0;  // of action left from the last round
};

// What awaits a mite on the bees that day, per day.
struct Hazards {
  double worker = 0, drone = 0, death = 0, residual = 0;
  [[nodiscard]] double sum() const { return worker + drone + death + residual; }
};

// What happened to the mites in a day, beside the round.
struct DayFates {
  double natural_drop = 0;  // died on bees, or fell at emergence
  double residual_kill = 0;
};

[[nodiscard]] bool caged(const Colony& colony, int day);

// Day 0: brood from the laying history, mites aged by a warm-up at constant adults, then scaled to
// the load. Adults above 0.
[[nodiscard]] ColonyState start_of(const Colony& colony, const MiteLoad& load);

[[nodiscard]] Hazards hazards_on(const Colony& colony, const ColonyState& state, int day);
[[nodiscard]] double all_mites(const MitePool& pool);
[[nodiscard]] double capped_worker_cells(const Colony& colony, const ColonyState& state);
[[nodiscard]] double capped_drone_cells(const Colony& colony, const ColonyState& state);
// Not a number once no bee is left.
[[nodiscard]] double wash_per_100(const Colony& colony, const ColonyState& state);

}  // namespace engine::mites
