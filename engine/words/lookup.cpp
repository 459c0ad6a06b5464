#include "engine/words/lookup.h"

#include <algorithm>
#include <cassert>
#include <cctype>

#include "engine/farm/queries.h"
#include "engine/words/words.h"

namespace engine {
namespace {

template <class Map, class Key>
auto* in(const Map& map, const Key& key) {
  const auto at = map.find(key);
  return at == map.end() ? nullptr : &at->second;
}

bool starts_with_word(std::string_view text, std::string_view word) {
  if (text.size() < word.size()) return false;
  for (std::size_t i = 0; i < word.size(); ++i)
    if (std::tolower(static_cast<unsigned char>(text[i])) != word[i]) return false;
  return true;
}

std::string with_sort(KitSort sort, const std::string& name) {
  const std::string word = words(sort);
  return starts_with_word(name, word) ? name : word + " " + name;
}

std::optional<YardId> yard_of_walk(const Farm& farm, WalkId walk) {
  if (const Walk* w = in(farm.walks, walk)) return w->yard;
  const auto opened = opening_of(farm, walk);
  return opened ? std::optional(opened->yard) : std::nullopt;
}

std::optional<YardId> yard_of_colony(const Farm& farm, ColonyId id) {
  const ColonyId colony = farm.log.joins().of(id);
  if (const Colony* c = in(farm.colonies, colony)) return c->yard;
  const auto added = farm.log.first<ColonyAdded>([&](auto& e) { return e.colony == colony; });
  return added ? std::optional(added->yard) : std::nullopt;
}

std::optional<YardId> yard_of_course(const Farm& farm, CourseId course) {
  if (const Course* c = in(farm.courses, course)) return c->yard;
  const auto p = farm.log.first<CoursePlanned>([&](auto& e) { return e.course == course; });
  if (p) return p->yard;
  const auto is_it = [&](const CourseDates& c) { return c.course == course && c.yard; };
  const auto all = farm.log.first<CoursesPlanned>(
      [&](auto& e) { return std::any_of(e.courses.begin(), e.courses.end(), is_it); });
  if (!all) return std::nullopt;
  const auto planned = std::find_if(all->courses.begin(), all->courses.end(), is_it);
  assert(planned != all->courses.end());  // first() found it by the same question
  return planned->yard;
}

std::optional<YardId> yard_of_colony(const Farm& farm, const std::optional<ColonyId>& id) {
  return id ? yard_of_colony(farm, *id) : std::nullopt;
}

// By the member that the kind's facts name.
template <class Kind>
std::optional<YardId> yard_of_kind(const Kind& k, const Farm& farm) {
  constexpr YardIn kIn = Kind::kFacts.yard;
  if constexpr (kIn == YardIn::Yard) return k.yard;
  if constexpr (kIn == YardIn::YardOrColony)
    return k.yard ? k.yard : yard_of_colony(farm, k.colony);
  if constexpr (kIn == YardIn::To) return k.to;
  if constexpr (kIn == YardIn::Walk) return yard_of_walk(farm, k.walk);
  if constexpr (kIn == YardIn::Colony) return yard_of_colony(farm, k.colony);
  if constexpr (kIn == YardIn::FirstColony)
    if (!k.colonies.empty()) return yard_of_colony(farm, k.colonies.front());
  if constexpr (kIn == YardIn::Course) return yard_of_course(farm, k.course);
  return std::nullopt;
}

template <class Kind>
std::optional<ColonyId> colony_of_kind(const Kind& k) {
  constexpr ColoniesIn kIn = Kind::kFacts.colonies;
  if constexpr (kIn == ColoniesIn::Colony || kIn == ColoniesIn::Joined)
    return k.colony;
  else
    return std::nullopt;
}

// Strikes of strikes are impossible, so this goes at most one step deep.
template <class Ask>
auto about_struck(const EntryStruck& s, const Farm& farm, Ask ask)
    -> decltype(ask(std::declval<const Body&>())) {
  const EntryHandle e = find_entry(farm, s.entry);
  if (e == nullptr || facts_of(e->event.body).is_strike()) return std::nullopt;
  return ask(e->event.body);
}

// The strike that the body is or takes back.
std::optional<EntryStruck> strike_behind(const Body& body, const Farm& farm) {
  if (const auto* s = std::get_if<EntryStruck>(&body)) return *s;
  const auto* back = std::get_if<StrikeTakenBack>(&body);
  const EntryHandle e = back == nullptr ? nullptr : find_entry(farm, back->strike);
  if (e == nullptr) return std::nullopt;
  if (const auto* c = std::get_if<EntryCorrected>(&e->event.body)) return EntryStruck{c->entry, {}};
  const auto* s = std::get_if<EntryStruck>(&e->event.body);
  return s == nullptr ? std::nullopt : std::optional(*s);
}

}  // namespace

std::string yard_called(const Farm& farm, YardId id) {
  const YardId yard = farm.log.joins().of(id);
  if (const Yard* y = in(farm.yards, yard)) return y->name;
  const auto added = farm.log.first<YardAdded>([&](auto& e) { return e.yard == yard; });
  return added ? added->name : "unknown yard";
}

std::string colony_called(const Farm& farm, ColonyId id) {
  const ColonyId colony = farm.log.joins().of(id);
  if (const Colony* c = in(farm.colonies, colony)) return c->name;
  const auto added = farm.log.first<ColonyAdded>([&](auto& e) { return e.colony == colony; });
  return added ? added->name : "unknown colony";
}

std::string kit_called(const Farm& farm, KitId item) {
  if (const KitItem* k = in(farm.kit, item)) return with_sort(k->sort, k->name);
  const auto added = farm.log.first<KitAdded>([&](auto& e) { return e.item == item; });
  return added ? with_sort(added->sort, added->name) : "unknown kit";
}

std::optional<Lot> lot_of(const Farm& farm, LotId lot) {
  if (const Lot* l = in(farm.lots, lot)) return *l;
  const auto got = farm.log.first<StockReceived>([&](auto& e) { return e.lot == lot; });
  if (!got) return std::nullopt;
  return Lot{got->lot,
             got->product,
             got->registration,
             got->code,
             got->expiry,
             got->supplier,
             got->receipt,
             {},
             {},
             {},
             got->supplier_address.value_or("")};
}

std::string lot_called(const Farm& farm, LotId lot) {
  const std::optional<Lot> l = lot_of(farm, lot);
  if (!l) return "unknown lot";
  return l->code.empty() ? l->product : "lot " + l->code;
}

std::optional<WalkOpened> opening_of(const Farm& farm, WalkId walk) {
  return farm.log.first<WalkOpened>([&](auto& e) { return e.walk == walk; });
}

std::string course_yard_called(const Farm& farm, const CourseDates& dates) {
  const auto yard = dates.yard ? dates.yard : yard_of_course(farm, dates.course);
  return yard ? yard_called(farm, *yard) : "unknown yard";
}

std::optional<YardId> yard_of(const Body& body, const Farm& farm) {
  if (const auto* c = std::get_if<EntryCorrected>(&body)) return yard_of(body_of(c->instead), farm);
  if (const auto s = strike_behind(body, farm))
    return about_struck(*s, farm, [&](const Body& b) { return yard_of(b, farm); });
  return std::visit([&](const auto& k) { return yard_of_kind(k, farm); }, body);
}

std::optional<ColonyId> colony_of(const Body& body, const Farm& farm) {
  if (const auto* c = std::get_if<EntryCorrected>(&body))
    return colony_of(body_of(c->instead), farm);
  if (const auto s = strike_behind(body, farm))
    return about_struck(*s, farm, [&](const Body& b) { return colony_of(b, farm); });
  return std::visit([](const auto& k) { return colony_of_kind(k); }, body);
}

}  // namespace engine
