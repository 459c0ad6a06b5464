#include "ui/screens/answers/answers.h"

namespace ui {

void Answers::advance(const engine::Farm& farm, const Budget& budget) {
  season.advance(farm, budget);
  plans.advance(budget);
}

const engine::Learned& Answers::learned(const engine::Farm& farm) const {
  return learned_.of(farm);
}

const engine::Lead* Answers::lead(const engine::Farm& farm, const engine::Walk& walk,
                                  const engine::Stamp& now) const {
  return planned ? guide_.of(farm, walk, learned(farm).dwell, now) : nullptr;
}

const engine::BatteryAdvice& Answers::battery_advice(const engine::Farm& farm,
                                                     const engine::Walk& walk,
                                                     engine::KitId vaporizer,
                                                     std::optional<engine::ColonyId> next) const {
  return advice_.of({farm.log.size(), walk.id, vaporizer, next}, [&] {
    return engine::battery_advice(farm, learned(farm).battery, walk, vaporizer, next);
  });
}

const engine::ChargeEstimate& Answers::charge_of(const engine::Farm& farm, engine::KitId battery,
                                                 engine::Mass loaded) const {
  return charge_.of({farm.log.size(), battery, loaded.mg},
                    [&] { return engine::charge_of(learned(farm).battery, battery, loaded); });
}

const std::vector<engine::Contradicted>& Answers::contradictions(const engine::Farm& farm) const {
  return contradictions_.of(farm.log.size(), [&] { return engine::contradictions(farm); });
}

const std::vector<engine::Offer>& Answers::offers(const engine::Farm& farm) const {
  return offers_.of(farm.log.size(), [&] { return engine::offers(farm); });
}

const engine::Learned& learned(const Look& look) { return look.answers.learned(look.farm); }

const engine::Lead* lead(const Look& look, const engine::Walk& walk) {
  return look.answers.lead(look.farm, walk, look.now);
}

}  // namespace ui
