// tests/support/evening.h -- a small invented farm and an evening on it, for tests.
#pragma once
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "engine/farm/queries.h"

namespace evening {

using namespace engine;

// A distinct id for each small number.
template <class IdType>
IdType id(int n) {
  IdType result;
  result.bytes[0] = 1;
  result.bytes[14] = static_cast<std::uint8_t>(n >> 8);
  result.bytes[15] = static_cast<std::uint8_t>(n);
  return result;
}

inline DeviceId device() { return id<DeviceId>(1); }
inline YardId yard() { return id<YardId>(1); }
inline ColonyId colony(int n) { return id<ColonyId>(n); }
inline KitId vaporizer(int n) { return id<KitId>(100 + n); }
inline KitId cloth(int n) { return id<KitId>(200 + n); }
inline KitId battery(int n) { return id<KitId>(300 + n); }
inline KitId respirator() { return id<KitId>(400); }
inline LotId lot() { return id<LotId>(1); }
inline WalkId walk(int n = 1) { return id<WalkId>(n); }

// 2026-08-14 19:40 at UTC-7, and so many seconds later on both clocks.
inline Stamp at(int seconds) {
  Stamp s = *stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
  s.boot = "boot-1";
  s.since_boot = Ms{5'000'000};
  return after(s, Seconds{seconds});
}

// Numbers for tests, not advice: 1 g a box, at most 1 g a box, dwell 90/60 s, seal 600/300 s.
inline LabelRules rules() {
  LabelRules r;
  r.profile = "test";
  r.product = "oxalic acid";
  r.per_brood_box = Mass{1000};
  r.most_per_brood_box = Mass{1000};
  r.seal_least = Seconds{300};
  return r;
}

// A farm and the number its next event gets.
struct Keeper {
  Farm farm;
  std::vector<Event> events;

  [[nodiscard]] Event next(const Stamp& when, Body body) const {
    const auto last = farm.last_seq.find(device());
    const std::int64_t seq = last == farm.last_seq.end() ? 1 : last->second + 1;
    return Event{{device(), seq}, when, std::move(body)};
  }
  [[nodiscard]] Refusal asks(const Stamp& when, Body body) const {
    return why_not(farm, next(when, std::move(body)));
  }
  EntryRef does(const Stamp& when, Body body) {
    const Event e = next(when, std::move(body));
    REQUIRE_MESSAGE(why_not(farm, e) == Refusal::None, kind(e.body), ": ", name(why_not(farm, e)));
    farm = apply(std::move(farm), e);
    events.push_back(e);
    return e.ref;
  }
  [[nodiscard]] const Walk& now(int n = 1) const { return farm.walks.at(walk(n)); }
  [[nodiscard]] const Stop& stop(int n) const { return *find_stop(now(), colony(n)); }
};

// A yard of `colonies` colonies with two brood boxes, the kit, and one lot of 100 g.
inline Keeper keeper_with(int colonies, int cloths, int vaporizers = 1) {
  Keeper k;
  k.does(at(0), YardAdded{yard(), "Long Acre", {}, {}, {}});
  for (int i = 1; i <= colonies; ++i)
    k.does(at(0), ColonyAdded{colony(i), yard(), "C" + std::to_string(i), 2});
  for (int i = 1; i <= vaporizers; ++i)
    k.does(at(0), KitAdded{vaporizer(i), KitSort::Vaporizer, "V" + std::to_string(i)});
  for (int i = 1; i <= cloths; ++i)
    k.does(at(0), KitAdded{cloth(i), KitSort::Cloth, std::to_string(i)});
  k.does(at(0), KitAdded{battery(1), KitSort::Battery, "B1"});
  k.does(at(0), KitAdded{respirator(), KitSort::Respirator, "half mask"});
  StockReceived stock;
  stock.lot = lot();
  stock.product = "oxalic acid";
  stock.amount = Mass{100'000};
  k.does(at(0), stock);
  return k;
}

inline WalkOpened opening(const Keeper& k, int n = 1) {
  WalkOpened o;
  o.walk = walk(n);
  o.yard = yard();
  o.rules = rules();
  for (const Colony* c : colonies_of(k.farm, yard())) o.colonies.push_back(c->id);
  for (const KitItem* v : kit_of(k.farm, KitSort::Vaporizer)) o.vaporizers.push_back(v->id);
  for (const KitItem* c : kit_of(k.farm, KitSort::Cloth)) o.cloths.push_back(c->id);
  o.respirator = respirator();
  return o;
}

inline void confirm_all(Keeper& k, int n = 1) {
  for (std::size_t i = 0; i < enum_names(Protection{}).size(); ++i)
    k.does(at(1), ProtectionConfirmed{walk(n), static_cast<Protection>(i)});
}

inline Keeper on_a_walk(int colonies, int cloths, int vaporizers = 1) {
  Keeper k = keeper_with(colonies, cloths, vaporizers);
  k.does(at(0), opening(k));
  confirm_all(k);
  return k;
}

inline VaporizerSet set(int n, int v = 1, Mass dose = Mass{2000}) {
  return {walk(), colony(n), vaporizer(v), battery(1), lot(), dose, 2, false};
}
inline ColonyCovered cover(int n, int c) { return {walk(), colony(n), cloth(c)}; }
inline ColonyUncovered uncover(int n) { return {walk(), colony(n)}; }

}  // namespace evening
