#include "engine/farm/would_fall.h"

#include <algorithm>
#include <set>

#include "engine/farm/fold.h"

namespace engine {
namespace {

// Whether other entries may count otherwise after it: mostly not, and then nothing is tried.
bool may_drop(const Farm& farm, const Event& e) {
  const Says says = facts_of(e.body).says;
  if (says == Says::Correction || says == Says::TakingBack) return true;
  const auto* strike = std::get_if<EntryStruck>(&e.body);
  const auto place = strike == nullptr ? std::nullopt : farm.log.find(strike->entry);
  if (!place) return false;
  const Entry struck = farm.log.copy(*place);
  return struck.counts() && facts_of(struck.event.body).leaves == Leaves::State;
}

// The entry that the event is about.
std::optional<EntryRef> meant_by(const Body& body) {
  if (const auto strike = strike_in(body)) return strike->entry;
  if (const auto* back = std::get_if<StrikeTakenBack>(&body)) return back->strike;
  return std::nullopt;
}

// What fell from `before` to `after`, of the entries that both have.
std::vector<EntryRef> fell(const Log& before, const Log& after, const std::set<EntryRef>& meant) {
  std::vector<EntryRef> list;
  for (const std::size_t place : after.marked()) {
    if (place >= before.size()) break;
    if (!after.has_fallen(place) || before.has_fallen(place)) continue;
    const Entry was = before.copy(place);
    if (was.counts() && !meant.contains(was.event.ref)) list.push_back(was.event.ref);
  }
  return list;
}

// The entry that is to count then: the event itself or, of a taking back, what counts again.
EntryRef comes_to_count(const Farm& farm, const Event& e) {
  const auto* back = std::get_if<StrikeTakenBack>(&e.body);
  if (back == nullptr) return e.ref;
  return strike_in(farm.log.copy(*farm.log.find(back->strike)).event.body)->entry;
}

}  // namespace

std::vector<EntryRef> what_would_fall(const Farm& farm, std::span<const Event> events) {
  std::set<EntryRef> meant;
  bool any = false;
  for (const Event& e : events) {
    any = any || may_drop(farm, e);
    if (const auto ref = meant_by(e.body)) meant.insert(*ref);
  }
  if (!any) return {};
  Farm then = farm;
  for (const Event& e : events) then = apply(std::move(then), e);
  return fell(farm.log, then.log, meant);
}

Refusal why_not_tried(const Farm& farm, const Event& e) {
  if (!may_drop(farm, e)) return Refusal::None;
  const Farm then = apply(farm, e);
  const auto meant = meant_by(e.body);
  const auto dropped = fell(farm.log, then.log, meant ? std::set{*meant} : std::set<EntryRef>{});
  const bool fact = std::any_of(dropped.begin(), dropped.end(), [&](const EntryRef& ref) {
    return facts_of(then.log.copy(*then.log.find(ref)).event.body).is_fact();
  });
  if (fact) return Refusal::OthersStandOnIt;
  return then.log.copy(*then.log.find(comes_to_count(farm, e))).fallen;
}

}  // namespace engine
