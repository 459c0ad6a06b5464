#include "ui/screens/screen.h"

namespace ui {

const engine::Learned& learned(const Look& look) {
  static const engine::Learned kCommonPractice = engine::learn({});
  return look.learned ? look.learned->of(look.farm) : kCommonPractice;
}

const engine::Lead* lead(const Look& look, const engine::Walk& walk) {
  return look.guide ? look.guide->of(look.farm, walk, learned(look).dwell, look.now) : nullptr;
}

engine::Refusal why_not(const Look& look, const engine::Body& body) {
  const auto last = look.farm.last_seq.find(look.device);
  const std::int64_t seq = last == look.farm.last_seq.end() ? 1 : last->second + 1;
  return engine::why_not(look.farm, engine::Event{{look.device, seq}, look.now, body});
}

}  // namespace ui
