#include "engine/learn/learned.h"

#include <utility>

namespace engine {

Learned learn(const Farm& farm) { return {learn_dwell(farm), learn_battery(farm)}; }

const Learned& LearnedOnce::of(const Farm& farm) {
  if (learned_ && entries_ == farm.log.size()) return *learned_;
  std::vector<ChargeSeen> charges = charges_seen(farm);
  if (!learned_ || charges != charges_)
    learned_ = Learned{learn_dwell(farm), learn_battery(charges)};
  else
    learned_->dwell = learn_dwell(farm);
  charges_ = std::move(charges);
  entries_ = farm.log.size();
  return *learned_;
}

}  // namespace engine
