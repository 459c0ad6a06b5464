#include "engine/events/joins.h"

#include <algorithm>
#include <cassert>
#include <type_traits>

namespace engine {
namespace {

template <class Id>
Id stands_for(const std::map<Id, Id>& all, Id id) {
  const auto at = all.find(id);
  return at == all.end() ? id : at->second;
}

template <class Id>
void join_in(std::map<Id, Id>& all, Id one, Id into) {
  one = stands_for(all, one), into = stands_for(all, into);
  if (one == into) return;
  for (auto& [id, to] : all)
    if (to == one) to = into;
  all[one] = into;
  assert(!all.contains(into));  // what stands for others is joined to nothing
}

// f(id) for each id of a yard or colony in a field, whatever it is wrapped in.
template <class F>
class EachPlace {
 public:
  explicit EachPlace(F f) : f_(std::move(f)) {}

  template <class Field>
  void operator()(const char*, Field& field) {
    look(field);
  }

 private:
  void look(YardId& id) { f_(id); }
  void look(ColonyId& id) { f_(id); }
  void look(Replacement& instead) {
    ReplacementBody body = instead.body();
    bool changed = false;
    const auto inner = [&](auto& id) {
      const auto before = id;
      f_(id);
      changed = changed || id != before;
    };
    EachPlace<decltype(inner)> within(inner);
    std::visit([&](auto& kind) { kind.fields(kind, within); }, body);
    if (changed) instead = Replacement(std::move(body));
  }
  template <class T>
  void look(std::optional<T>& field) {
    if (field) look(*field);
  }
  template <class T>
  void look(std::vector<T>& list) {
    for (T& item : list) look(item);
  }
  template <class T>
  void look(T& other) {
    if constexpr (requires { T::fields(other, *this); }) T::fields(other, *this);
  }

  F f_;
};

template <class F>
void each_place(Body& body, F f) {
  EachPlace<F> look(std::move(f));
  std::visit([&](auto& kind) { kind.fields(kind, look); }, body);
}

// Each colony once, where it came first.
void each_once(std::vector<ColonyId>& list) {
  std::vector<ColonyId> kept;
  for (const ColonyId id : list)
    if (std::find(kept.begin(), kept.end(), id) == kept.end()) kept.push_back(id);
  list = std::move(kept);
}

bool keeps_its_ids(const Body& body) {
  const KindFacts& facts = facts_of(body);
  return facts.is_join() || facts.says == Says::Loss;
}

}  // namespace

YardId Joins::of(YardId id) const { return stands_for(yards, id); }
ColonyId Joins::of(ColonyId id) const { return stands_for(colonies, id); }
void Joins::join(YardId one, YardId into) { join_in(yards, one, into); }
void Joins::join(ColonyId one, ColonyId into) { join_in(colonies, one, into); }

bool stand_for(Body& body, const Joins& joins) {
  if (joins.empty() || keeps_its_ids(body)) return false;
  bool changed = false;
  each_place(body, [&](auto& id) {
    const auto now = joins.of(id);
    changed = changed || now != id;
    id = now;
  });
  if (!changed) return false;
  if (auto* walk = std::get_if<WalkOpened>(&body)) each_once(walk->colonies);
  if (auto* noted = std::get_if<BroodNoted>(&body)) each_once(noted->colonies);
  return true;
}

bool names_any(Body body, const Joins& of) {
  if (facts_of(body).is_join()) return false;
  bool any = false;
  each_place(body, [&](auto& id) { any = any || of.of(id) != id; });
  return any;
}

}  // namespace engine
