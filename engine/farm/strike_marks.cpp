#include "engine/farm/strike_marks.h"

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include "engine/farm/fold.h"
#include "engine/farm/unread_facts.h"

namespace engine {
namespace {

// What all strikes of a log say together.
class Strikes {
 public:
  explicit Strikes(const Farm& f) : log_(f.log), facts_(unread_facts(f)) {
    const auto about_another = [](const KindFacts& facts) { return facts.is_about_another(); };
    log_.each_where(about_another, [&](const Entry& e) {
      const std::size_t own = *log_.find(e.event.ref);
      const auto* back = std::get_if<StrikeTakenBack>(&e.event.body);
      const Refusal why = back == nullptr ? strike(e, own) : take_back(e, own, *back);
      if (why != Refusal::None) void_ones[own] = why;
    });
  }

  std::map<std::size_t, Struck> of;  // by the place of what is struck
  std::map<std::size_t, Refusal> void_ones;

  [[nodiscard]] bool holds(std::size_t place, const EntryRef& by) const {
    const auto at = of.find(place);
    return at != of.end() && at->second.by == by;
  }

 private:
  Refusal strike(const Entry& by, std::size_t own) {
    const EntryStruck said = *strike_in(by.event.body);
    const auto struck = log_.find(said.entry);
    const Refusal why = why_void(by, own, struck);
    if (why == Refusal::None) of[*struck] = Struck{by.event.ref, said.reason, by.event.stamp};
    return why;
  }

  [[nodiscard]] Refusal why_void(const Entry& by, std::size_t own,
                                 const std::optional<std::size_t>& struck) const {
    if (!struck) return Refusal::NoSuchEntry;
    if (facts_of_kind(log_.kind_at(*struck)).is_strike()) return Refusal::StrikesAStrike;
    if (of.contains(*struck)) return Refusal::AlreadyStruck;
    const Refusal why = void_correction(by, own, *struck);
    return why == Refusal::None && stood_upon(own) ? Refusal::OthersStandOnIt : why;
  }

  // A correction must come after what it corrects, so that no two can stand in each other's place.
  [[nodiscard]] Refusal void_correction(const Entry& by, std::size_t own,
                                        std::size_t struck) const {
    const auto* c = std::get_if<EntryCorrected>(&by.event.body);
    if (c == nullptr) return Refusal::None;
    if (struck >= own) return Refusal::NoSuchEntry;
    return corrects_alike(log_.copy(struck), c->instead) ? Refusal::None : Refusal::NotCorrectable;
  }

  // The strike is struck, and what it struck no longer is.
  Refusal take_back(const Entry& by, std::size_t own, const StrikeTakenBack& back) {
    const auto strike = log_.find(back.strike);
    const auto said = strike ? strike_in(log_.copy(*strike).event.body) : std::nullopt;
    const auto struck = said ? log_.find(said->entry) : std::nullopt;
    if (!struck) return Refusal::NoSuchEntry;
    if (!holds(*struck, back.strike) || of.contains(*strike)) return Refusal::NotStruck;
    if (stood_upon(own)) return Refusal::OthersStandOnIt;
    of.erase(*struck);
    of[*strike] = Struck{by.event.ref, back.reason, by.event.stamp};
    return Refusal::None;
  }

  // A fact that was struck before stands on nothing.
  [[nodiscard]] bool stood_upon(std::size_t strike) const {
    const auto at = facts_.find(strike);
    return at != facts_.end() && std::any_of(at->second.begin(), at->second.end(),
                                             [&](std::size_t fact) { return !of.contains(fact); });
  }

  const Log& log_;
  const std::map<std::size_t, std::vector<std::size_t>> facts_;
};

// A correction that held before and holds now keeps what folding found of it.
bool held_already(const Log& log, const Strikes& now, const Entry& e) {
  const auto strike = strike_in(e.event.body);
  const auto place = strike ? log.find(strike->entry) : std::nullopt;
  if (!place || !now.holds(*place, e.event.ref)) return false;
  const Entry struck = log.copy(*place);
  return struck.struck && struck.struck->by == e.event.ref;
}

}  // namespace

std::size_t mark_strikes(Farm& f) {
  const Strikes now(f);
  Log& log = f.log;
  std::size_t changed = log.size();
  std::set<Thing> moved;  // that may come, go or change
  const auto touch = [&](std::size_t place) {
    changed = std::min(changed, first_place(log, place));
    if (const auto thing = thing_to_wait_for(log.copy(place).event.body)) moved.insert(*thing);
  };
  for (const std::size_t place : log.marked()) {
    const Entry e = log.copy(place);
    if (e.struck && !now.holds(place, e.struck->by)) touch(place);
    if (e.fallen != Refusal::None && facts_of(e.event.body).is_about_another() &&
        !held_already(log, now, e))
      log.set_fallen(place, Refusal::None);
    if (e.struck && !now.of.contains(place)) log.set_struck(place, {});
  }
  for (const auto& [place, struck] : now.of) {
    const Entry e = log.copy(place);
    if (e.struck && e.struck->by == struck.by) continue;
    touch(place);
    log.set_struck(place, struck);
  }
  for (const auto& [place, why] : now.void_ones) log.set_fallen(place, why);
  return first_waiting(log, moved, changed);
}

std::size_t mark_strikes_and_joins(Farm& f) {
  const std::size_t struck = mark_strikes(f);
  const std::size_t joined = mark_joins(f.log);
  if (f.log.joins().empty() && joined == f.log.size()) return struck;
  return std::min({struck, joined, mark_strikes(f)});
}

}  // namespace engine
