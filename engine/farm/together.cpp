#include "engine/farm/together.h"

#include <algorithm>
#include <numeric>
#include <tuple>

#include "engine/farm/fold.h"

namespace engine {
namespace {

constexpr std::int64_t kLatest = 253'402'300'799'999;  // the year 9999 ends: nothing is after it

std::int64_t wall_ms(const Event& e) { return e.stamp.at.time_since_epoch().count(); }

// Why a strike or correction is void; it stays readable all the same. A correction must come after
// what it corrects, so that no two can stand in each other's place.
Refusal void_strike(const Farm& f, const Entry& by, const EntryRef& struck) {
  const auto at = f.log_index.find(struck);
  if (at == f.log_index.end()) return Refusal::NoSuchEntry;
  const Entry& entry = f.log[at->second];
  if (std::holds_alternative<EntryStruck>(entry.event.body)) return Refusal::StrikesAStrike;
  if (entry.struck) return Refusal::AlreadyStruck;
  const auto* c = std::get_if<EntryCorrected>(&by.event.body);
  if (c == nullptr) return Refusal::None;
  if (&entry >= &by) return Refusal::NoSuchEntry;
  return corrects_alike(entry, c->instead) ? Refusal::None : Refusal::NotCorrectable;
}

void strike_all(Farm& f) {
  for (Entry& entry : f.log) {
    const auto strike = strike_in(entry.event.body);
    if (!strike) continue;
    entry.fallen = void_strike(f, entry, strike->entry);
    if (entry.fallen == Refusal::None)
      f.log[f.log_index.at(strike->entry)].struck =
          Struck{entry.event.ref, strike->reason, entry.event.stamp};
  }
}

Farm logged(std::vector<Event> events) {
  Farm f;
  for (Event& e : in_common_order(std::move(events))) {
    std::int64_t& last = f.last_seq[e.ref.device];
    last = std::max(last, e.ref.seq);
    f.log_index[e.ref] = f.log.size();
    f.log.push_back({std::move(e), {}, Refusal::None});
  }
  return f;
}

}  // namespace

std::int64_t Clocks::of(const Event& e) const {
  std::int64_t clock = wall_ms(e);
  if (const auto before = last_.find(e.ref.device); before != last_.end())
    clock = std::max(clock, before->second);
  if (const auto* followed = std::get_if<ClockFollowed>(&e.body))
    clock = std::max(clock, std::min(followed->after_utc_ms, kLatest) + 1);
  return clock;
}

std::int64_t Clocks::take(const Event& e) { return last_[e.ref.device] = of(e); }

std::optional<std::int64_t> Clocks::latest_beside(DeviceId device) const {
  std::optional<std::int64_t> latest;
  for (const auto& [other, clock] : last_)
    if (other != device) latest = std::max(latest.value_or(clock), clock);
  return latest;
}

std::vector<Event> to_come_last(const Clocks& clocks, Event e) {
  const auto latest = clocks.latest_beside(e.ref.device);
  if (!latest || clocks.of(e) > *latest) return {std::move(e)};
  Event followed{e.ref, e.stamp, ClockFollowed{*latest}};
  ++e.ref.seq;
  return {std::move(followed), std::move(e)};
}

std::vector<Event> in_common_order(std::vector<Event> events) {
  const auto by_number = [](const Event& a, const Event& b) { return a.ref < b.ref; };
  if (!std::is_sorted(events.begin(), events.end(), by_number))
    std::sort(events.begin(), events.end(), by_number);
  std::vector<std::tuple<std::int64_t, DeviceId, std::int64_t, std::size_t>> keys;
  keys.reserve(events.size());
  Clocks clocks;
  for (std::size_t i = 0; i < events.size(); ++i)
    keys.emplace_back(clocks.take(events[i]), events[i].ref.device, events[i].ref.seq, i);
  std::sort(keys.begin(), keys.end());
  std::vector<Event> ordered;
  ordered.reserve(events.size());
  for (const auto& key : keys) ordered.push_back(std::move(events[std::get<3>(key)]));
  return ordered;
}

Farm fold_together(std::vector<Event> events) {
  Farm f = logged(std::move(events));
  strike_all(f);
  return fold_again(std::move(f));
}

Farm fold_without_strikes(std::vector<Event> events) {
  return fold_again(logged(std::move(events)));
}

}  // namespace engine
