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

// Puts what each id of a yard or colony stands for in its place, whatever field it is in.
class StandIns {
 public:
  explicit StandIns(const Joins& joins) : joins_(joins) {}

  template <class Field>
  void operator()(const char*, Field& field) {
    look(field);
  }
  [[nodiscard]] bool changed() const { return changed_; }

 private:
  template <class Id>
  void put(Id& id) {
    const Id now = joins_.of(id);
    changed_ = changed_ || now != id;
    id = now;
  }
  void look(YardId& id) { put(id); }
  void look(ColonyId& id) { put(id); }
  void look(Replacement& instead) {
    ReplacementBody body = instead.body();
    StandIns within(joins_);
    std::visit([&](auto& kind) { kind.fields(kind, within); }, body);
    if (!within.changed_) return;
    instead = Replacement(std::move(body));
    changed_ = true;
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

  const Joins& joins_;
  bool changed_ = false;
};

// Whether the body named an id that stands for another.
bool put_stand_ins(Body& body, const Joins& joins) {
  StandIns put(joins);
  std::visit([&](auto& kind) { kind.fields(kind, put); }, body);
  return put.changed();
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
  if (!put_stand_ins(body, joins)) return false;
  if (auto* walk = std::get_if<WalkOpened>(&body)) each_once(walk->colonies);
  if (auto* noted = std::get_if<BroodNoted>(&body)) each_once(noted->colonies);
  return true;
}

bool names_any(Body body, const Joins& of) {
  if (facts_of(body).is_join()) return false;
  return put_stand_ins(body, of);
}

}  // namespace engine
