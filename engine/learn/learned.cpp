#include "engine/learn/learned.h"

namespace engine {

Learned learn(const Farm& farm) { return {learn_dwell(farm), learn_battery(farm)}; }

const Learned& LearnedOnce::of(const Farm& farm) {
  if (!learned_ || entries_ != farm.log.size()) learned_ = learn(farm);
  entries_ = farm.log.size();
  return *learned_;
}

}  // namespace engine
