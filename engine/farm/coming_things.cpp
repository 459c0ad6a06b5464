// Things that corrected words name although the entry that brings them stands further on in the
// log. Whether that entry holds is told from the strikes and its words alone, so that every way of
// folding the log gives the same answer.
#include <algorithm>

#include "engine/farm/fold.h"

namespace engine {
namespace {

// What holds in the place of the entry; nullopt: it was struck.
std::optional<Body> body_that_holds(const Log& log, const Entry& entry) {
  if (!entry.struck) return entry.event.body;
  const auto by = correction_place(log, entry);
  if (!by) return std::nullopt;
  return body_of(std::get<EntryCorrected>(log.copy(*by).event.body).instead);
}

// f(body, place) for each entry behind `place` that brings a thing of that kind and could.
template <class Kind, class F>
void each_coming(const Log& log, std::size_t place, F f) {
  log.each<Kind>(
      [&](const Entry& e) {
        const auto body = body_that_holds(log, e);
        const auto* said = body ? std::get_if<Kind>(&*body) : nullptr;
        if (said != nullptr) f(*said, *log.find(e.event.ref));
      },
      place + 1);
}

// Whether nothing speaks against it but what the farm lacks.
template <class Kind>
bool could_be_added(const Kind& kind) {
  return why_it_does_not_fit(Farm{}, Event{{}, {}, kind}) == Refusal::None;
}

bool yard_comes_between(const Log& log, std::size_t place, std::size_t end, YardId yard) {
  bool comes = false;
  each_coming<YardAdded>(log, place, [&](const YardAdded& e, std::size_t at) {
    comes = comes || (e.yard == yard && at < end && could_be_added(e));
  });
  return comes;
}

}  // namespace

bool lot_comes(const Log& log, std::size_t place, LotId lot) {
  bool comes = false;
  each_coming<StockReceived>(log, place, [&](const StockReceived& e, std::size_t) {
    comes = comes || (e.lot == lot && could_be_added(e));
  });
  return comes;
}

bool battery_comes(const Log& log, std::size_t place, KitId battery) {
  bool comes = false;
  each_coming<KitAdded>(log, place, [&](const KitAdded& e, std::size_t) {
    comes = comes || (e.item == battery && e.sort == KitSort::Battery && could_be_added(e));
  });
  return comes;
}

bool yard_comes(const Log& log, std::size_t place, YardId yard) {
  return yard_comes_between(log, place, log.size(), yard);
}

bool colony_comes(const Farm& farm, std::size_t place, ColonyId colony) {
  bool comes = false;
  each_coming<ColonyAdded>(farm.log, place, [&](const ColonyAdded& e, std::size_t at) {
    if (comes || e.colony != colony) return;
    Farm there;
    if (farm.yards.contains(e.yard) || yard_comes_between(farm.log, place, at, e.yard))
      there.yards[e.yard].id = e.yard;
    comes = why_it_does_not_fit(there, Event{{}, {}, e}) == Refusal::None;
  });
  return comes;
}

std::optional<Thing> thing_to_wait_for(const Body& body) {
  const auto thing = brought_by(body);
  return thing && std::holds_alternative<WalkId>(*thing) ? std::nullopt : thing;
}

std::size_t first_waiting(const Log& log, const std::set<Thing>& things, std::size_t place) {
  std::size_t first = place;
  if (things.empty()) return first;
  log.each<EntryCorrected>([&](const Entry& e) {
    bool names = false;
    each_named(e.event.body, [&](const Thing& thing) { names = names || things.contains(thing); });
    if (names) first = std::min(first, first_place(log, *log.find(e.event.ref)));
  });
  return first;
}

bool colony_came_before(const Log& log, std::size_t place, ColonyId colony) {
  for (std::size_t i = 0; i < place; ++i) {
    if (log.kind_at(i) != Log::place_of<ColonyAdded>()) continue;
    const Entry e = log.copy(i);
    if (e.counts() && std::get<ColonyAdded>(e.event.body).colony == colony) return true;
  }
  return false;
}

}  // namespace engine
