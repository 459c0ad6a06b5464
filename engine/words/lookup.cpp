#include "engine/words/lookup.h"

#include <algorithm>
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

std::optional<ColonyId> colony_in(const ColonyId& c) { return c; }
std::optional<ColonyId> colony_in(const std::optional<ColonyId>& c) { return c; }
std::optional<YardId> yard_in(const YardId& y) { return y; }
std::optional<YardId> yard_in(const std::optional<YardId>& y) { return y; }

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
  return std::find_if(all->courses.begin(), all->courses.end(), is_it)->yard;
}

template <class Kind>
std::optional<YardId> yard_of_kind(const Kind& k, const Farm& farm) {
  if constexpr (requires { k.to; }) return k.to;
  if constexpr (requires { k.yard; })
    if (const auto yard = yard_in(k.yard)) return yard;
  if constexpr (requires { k.walk; }) return yard_of_walk(farm, k.walk);
  if constexpr (requires { k.colony; })
    if (const auto colony = colony_in(k.colony)) return yard_of_colony(farm, *colony);
  if constexpr (std::is_same_v<Kind, BroodNoted>)
    if (!k.colonies.empty()) return yard_of_colony(farm, k.colonies.front());
  if constexpr (std::is_same_v<Kind, CourseChanged> || std::is_same_v<Kind, CourseEnded>)
    return yard_of_course(farm, k.course);
  return std::nullopt;
}

// Strikes of strikes are impossible, so this goes at most one step deep.
template <class Ask>
auto about_struck(const EntryStruck& s, const Farm& farm, Ask ask)
    -> decltype(ask(std::declval<const Body&>())) {
  const Entry* e = find_entry(farm, s.entry);
  if (e == nullptr || std::holds_alternative<EntryStruck>(e->event.body) ||
      std::holds_alternative<StrikeTakenBack>(e->event.body))
    return std::nullopt;
  return ask(e->event.body);
}

// The strike that the body is or takes back.
std::optional<EntryStruck> strike_behind(const Body& body, const Farm& farm) {
  if (const auto* s = std::get_if<EntryStruck>(&body)) return *s;
  const auto* back = std::get_if<StrikeTakenBack>(&body);
  const Entry* e = back == nullptr ? nullptr : find_entry(farm, back->strike);
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
  return std::visit(
      [](const auto& k) -> std::optional<ColonyId> {
        if constexpr (requires { k.colony; })
          return colony_in(k.colony);
        else
          return std::nullopt;
      },
      body);
}

}  // namespace engine
