#include "ui/screens/base/tried.h"

#include "engine/farm/would_fall.h"
#include "engine/words/fall_words.h"

namespace ui {

namespace {

bool tries_the_same(const engine::Body& a, const engine::Body& b) {
  if (a.index() != b.index()) return false;
  if (const auto* s = std::get_if<engine::EntryStruck>(&a))
    return s->entry == std::get<engine::EntryStruck>(b).entry;
  if (const auto* t = std::get_if<engine::StrikeTakenBack>(&a))
    return t->strike == std::get<engine::StrikeTakenBack>(b).strike;
  const auto* c = std::get_if<engine::EntryCorrected>(&a);
  if (c == nullptr) return false;
  const auto& other = std::get<engine::EntryCorrected>(b);
  return c->entry == other.entry && engine::same_words(c->instead, other.instead);
}

engine::Event event_of(const Look& look, const engine::Body& body) {
  const auto last = look.farm.last_seq.find(look.device);
  return {{look.device, last == look.farm.last_seq.end() ? 1 : last->second + 1}, look.now, body};
}

Tried try_it(const Look& look, const engine::Body& body) {
  const engine::Event e = event_of(look, body);
  Tried tried{engine::why_not(look.farm, e), {}};
  const bool tell =
      tried.refusal == engine::Refusal::None || tried.refusal == engine::Refusal::OthersStandOnIt;
  if (tell) tried.fall = words_of_fall(look.farm, engine::what_would_fall(look.farm, {&e, 1}));
  return tried;
}

}  // namespace

const Tried& TriedOnce::of(const Look& look, const engine::Body& body) {
  if (at_ != look.farm.log.size() || !tries_the_same(body_, body)) {
    tried_ = try_it(look, body);
    at_ = look.farm.log.size();
    body_ = body;
  }
  return tried_;
}

}  // namespace ui
