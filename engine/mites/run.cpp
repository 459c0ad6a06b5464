#include "engine/mites/run.h"

#include <algorithm>
#include <cassert>

#include "engine/mites/cohort.h"

namespace engine::mites {
namespace {

class Runner {
 public:
  Runner(const Colony& colony, const ColonyState& start, const Treatment& treatment, int days)
      : colony_(colony), state_(start), days_(days) {
    out_.rounds = rounds_within(treatment.days, days);
    out_.kill = treatment.kill;
    out_.away = treatment.away;
    for (auto* list : {&out_.total, &out_.phoretic, &out_.in_brood, &out_.adults,
                       &out_.capped_worker, &out_.capped_drone, &out_.wash_per_100,
                       &out_.invasion_rate, &out_.natural_drop, &out_.treatment_kill})
      list->reserve(static_cast<std::size_t>(days) + 1);
  }

  ColonyRun go() {
    for (int day = 0; day < days_; ++day) {
      record(day);
      const double killed = round_today(day) ? treat() : 0;
      const Hazards hazards = hazards_on(colony_, state_, day);
      const DayFates fates = step(colony_, state_, hazards, day);
      if (cohort_) cohort_->step(hazards);
      out_.natural_drop.push_back(fates.natural_drop);
      out_.treatment_kill.push_back(killed + fates.residual_kill);
    }
    record(days_);
    finish();
    return std::move(out_);
  }

 private:
  [[nodiscard]] bool round_today(int day) const {
    return std::binary_search(out_.rounds.begin(), out_.rounds.end(), day);
  }

  void record(int day) {
    const Hazards hazards = hazards_on(colony_, state_, day);
    out_.total.push_back(all_mites(state_.mites));
    out_.phoretic.push_back(state_.mites.on_bees);
    out_.in_brood.push_back(all_mites(state_.mites) - state_.mites.on_bees);
    out_.adults.push_back(state_.adults);
    out_.capped_worker.push_back(capped_worker_cells(colony_, state_));
    out_.capped_drone.push_back(capped_drone_cells(colony_, state_));
    out_.wash_per_100.push_back(wash_per_100(colony_, state_));
    out_.invasion_rate.push_back(hazards.worker + hazards.drone);
  }

  double treat() {
    if (!cohort_) cohort_.emplace(colony_.constants, state_.mites);
    cohort_->round(out_.away);
    const double killed = state_.mites.on_bees * out_.kill * (1 - out_.away);
    state_.mites.on_bees -= killed;
    state_.residual_days = colony_.constants.residual_days;
    return killed;
  }

  void finish() {
    if (!cohort_) return;
    const Constants& k = colony_.constants;
    const int apart = out_.rounds.back() - out_.rounds.front();
    out_.capped_cohort = cohort_->size();
    out_.capped_cohort_exposed = cohort_->exposed();
    out_.worker_cells_opened = cells_opened(k.worker, k, apart);
    out_.drone_cells_opened = cells_opened(k.drone, k, apart);
  }

  const Colony& colony_;
  ColonyState state_;
  int days_;
  std::optional<Cohort> cohort_;
  ColonyRun out_;
};

}  // namespace

ColonyRun run(const Colony& colony, const ColonyState& start, const Treatment& treatment,
              int days) {
  assert(days >= 0);
  return Runner(colony, start, treatment, days).go();
}

}  // namespace engine::mites
