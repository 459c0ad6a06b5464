#include "engine/rules/dribble.h"

#include <algorithm>

namespace engine {
namespace {

DribbleMix mix_for(double ml, int colonies) {
  const double litres = ml / 1000;
  const double sugar = kDribbleSugarPerBatch * litres / kDribbleBatchLitres;
  return {ml, kDribbleGramsPerLitre * litres, sugar, sugar, colonies};
}

}  // namespace

double dribble_ml(int seams) {
  return std::min(kDribbleMostMl, kDribblePerSeamMl * std::max(0, seams));
}

DribbleMix dribble_mix(std::span<const int> seams, double margin) {
  double ml = 0;
  for (const int n : seams) ml += dribble_ml(n);
  return mix_for(ml * (1 + margin), static_cast<int>(seams.size()));
}

DribbleMix dribble_mix_at_most(int colonies, double margin) {
  return mix_for(kDribbleMostMl * std::max(0, colonies) * (1 + margin), std::max(0, colonies));
}

}  // namespace engine
