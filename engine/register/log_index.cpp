#include "engine/register/log_index.h"

#include <algorithm>

#include "engine/core/instant.h"

namespace engine {
namespace {

template <class Map, class Key>
LogIndex::Places newest_first(const Map& map, const Key& key) {
  const auto at = map.find(key);
  if (at == map.end()) return {};
  LogIndex::Places places = at->second;
  std::sort(places.begin(), places.end(), std::greater<>());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

std::vector<ColonyId> all_of(const std::optional<ColonyId>& c) {
  return c ? std::vector<ColonyId>{*c} : std::vector<ColonyId>{};
}

// The colonies that an event is about.
std::vector<ColonyId> colonies_in(const Body& body) {
  return std::visit(
      []<class Kind>(const Kind& k) -> std::vector<ColonyId> {
        constexpr ColoniesIn kIn = Kind::kFacts.colonies;
        if constexpr (kIn == ColoniesIn::Colony) return all_of(k.colony);
        if constexpr (kIn == ColoniesIn::Colonies) return k.colonies;
        if constexpr (kIn == ColoniesIn::Joined) return {k.into};  // `colony` is none any more
        return {};
      },
      body);
}

}  // namespace

void LogIndex::read(const Farm& farm, std::size_t most) {
  const Log& log = farm.log;
  const bool follows =
      size_ == 0 ||
      (size_ <= log.size() && log.copy(size_ - 1).event.ref == last_ && joins_ == log.joins());
  if (!follows) *this = LogIndex{};
  joins_ = log.joins();
  if (size_ == 0) {
    size_ = unread_ = log.size();
  } else {
    for (; size_ < log.size(); ++size_) take(farm, static_cast<Place>(size_));
  }
  if (size_ > 0) last_ = log.copy(size_ - 1).event.ref;
  for (std::size_t n = 0; n < most && unread_ > 0; ++n) take(farm, static_cast<Place>(--unread_));
}

void LogIndex::take(const Farm& farm, Place place) {
  const Entry e = farm.log.copy(place);
  const Body& body = e.event.body;
  days_[std::chrono::sys_days(local_date(e.event.stamp))].push_back(place);
  if (const auto* c = std::get_if<EntryCorrected>(&body)) {
    const std::size_t first = first_place(farm.log, place);
    if (farm.log.kind_at(first) != Log::place_of<EntryCorrected>())  // else void
      list(static_cast<Place>(first), body_of(c->instead));
    return;
  }
  list(place, body);
  if (!facts_of(body).in_register) return;
  const bool newest = treatments_.empty() || place > treatments_.front();
  newest ? treatments_.push_front(place) : treatments_.push_back(place);
}

void LogIndex::list(Place place, const Body& body) {
  for (const ColonyId& colony : colonies_in(body)) colonies_[colony].push_back(place);
  if (const auto* n = std::get_if<NoteWritten>(&body); n && n->yard)
    notes_[*n->yard].push_back(place);
  if (const auto* s = std::get_if<VaporizerSet>(&body); s && s->lot)
    lots_[*s->lot].push_back(place);
  if (const auto* l = std::get_if<EnteredLate>(&body); l && l->lot) lots_[*l->lot].push_back(place);
  if (const auto* t = std::get_if<OtherTreatmentGiven>(&body); t && !t->lot.empty())
    codes_[t->lot].push_back(place);
  if (const auto* o = std::get_if<WalkOpened>(&body)) {
    const auto [at, fresh] = openings_.try_emplace(o->walk, place);
    if (!fresh) at->second = std::min(at->second, place);
  }
  if (const auto* p = std::get_if<ColonyPassedOver>(&body))
    passes_[{p->walk, p->colony}].push_back(place);
  if (const auto* a = std::get_if<ColonyAdded>(&body)) comings_[a->colony].push_back(place);
  if (const auto* m = std::get_if<ColonyMoved>(&body)) comings_[m->colony].push_back(place);
  if (std::holds_alternative<SetupChanged>(body)) setups_.push_back(place);
}

LogIndex::Places LogIndex::of_day(Date day) const {
  return newest_first(days_, std::chrono::sys_days(day));
}
LogIndex::Places LogIndex::of_colony(ColonyId colony) const {
  return newest_first(colonies_, colony);
}
LogIndex::Places LogIndex::notes_of(YardId yard) const { return newest_first(notes_, yard); }
LogIndex::Places LogIndex::given_from(LotId lot) const { return newest_first(lots_, lot); }
LogIndex::Places LogIndex::given_from(const std::string& code) const {
  return newest_first(codes_, code);
}
LogIndex::Places LogIndex::comings(ColonyId colony) const { return newest_first(comings_, colony); }
LogIndex::Places LogIndex::passes(WalkId walk, ColonyId colony) const {
  return newest_first(passes_, std::pair{walk, colony});
}
LogIndex::Places LogIndex::setups() const {
  Places places = setups_;
  std::sort(places.begin(), places.end(), std::greater<>());
  return places;
}

std::optional<Date> LogIndex::day_before(Date day) const {
  const auto at = days_.lower_bound(std::chrono::sys_days(day));
  if (at == days_.begin()) return std::nullopt;
  return Date{std::prev(at)->first};
}

std::optional<Date> LogIndex::day_after(Date day) const {
  const auto at = days_.upper_bound(std::chrono::sys_days(day));
  if (at == days_.end()) return std::nullopt;
  return Date{at->first};
}

std::vector<std::string> LogIndex::codes() const {
  std::vector<std::string> all;
  for (const auto& [code, places] : codes_) all.push_back(code);
  return all;
}

std::optional<LogIndex::Place> LogIndex::opening(WalkId walk) const {
  const auto at = openings_.find(walk);
  if (at == openings_.end()) return std::nullopt;
  return at->second;
}

}  // namespace engine
