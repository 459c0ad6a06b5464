// Every treatment of the log gives the appointments it can have. treatment_ends() of today says
// which wait, that of the day of giving which ran out; the others are over.
#include "storage/bundle/end_appointments.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "storage/disk/sha256.h"

namespace storage {
namespace {

using namespace engine;

using EndKey = std::tuple<YardId, Date, std::string, EndKind>;

EndKey key_of(const TreatmentEnd& end) { return {end.yard, end.given, end.product, end.kind}; }

// Those of one appointment in one.
std::map<EndKey, TreatmentEnd> holding(const Farm& farm, std::span<const MethodRules> methods,
                                       Date today) {
  std::map<EndKey, TreatmentEnd> all;
  for (TreatmentEnd& end : treatment_ends(farm, methods, today)) {
    const auto [at, is_new] = all.try_emplace(key_of(end), end);
    if (is_new) continue;
    TreatmentEnd& kept = at->second;
    kept.on =
        end.kind == EndKind::StripsOut ? std::min(kept.on, end.on) : std::max(kept.on, end.on);
    kept.from_removal_to_come = kept.from_removal_to_come || end.from_removal_to_come;
    kept.colonies.insert(kept.colonies.end(), end.colonies.begin(), end.colonies.end());
  }
  return all;
}

std::string uid_of(const EndKey& key) {
  const auto& [yard, given, product, kind] = key;
  std::string day = iso_date(given);
  std::erase(day, '-');
  return fmt::format("{}-{}-{}-{}", enum_names(kind)[static_cast<std::size_t>(kind)], text(yard),
                     day, hex(sha256(product)).substr(0, 16));
}

// Goes through the log once and notes what was ever announced.
struct Announced {
  std::span<const MethodRules> methods;
  std::map<EndKey, std::size_t> known{};  // place in `list`
  std::vector<EndAppointment> list{};
  std::map<ColonyId, std::set<YardId>> stood{};
  struct Of {
    std::string product;
    int honey = 0, supers = 0;
  };
  std::map<WalkId, Of> walks{};

  void note(const EndKey& key, std::size_t place) {
    const auto [at, is_new] = known.try_emplace(key, list.size());
    if (!is_new) {
      ++list[at->second].entries;
    } else {
      EndAppointment a;
      a.uid = uid_of(key);
      a.place = place;
      a.end.kind = std::get<EndKind>(key);
      a.end.yard = std::get<YardId>(key);
      a.end.product = std::get<std::string>(key);
      a.end.given = a.end.on = std::get<Date>(key);
      a.over = true;
      list.push_back(std::move(a));
    }
  }
  void note(EndKind kind, ColonyId colony, Date on, const std::string& product, std::size_t place) {
    for (const YardId yard : stood[colony]) note({yard, on, product, kind}, place);
  }
  void see(const OtherTreatmentGiven& g, std::size_t place) {
    const auto rules = std::find_if(methods.begin(), methods.end(), [&](const MethodRules& m) {
      return g.rules && m.id == *g.rules;
    });
    const bool ruled = rules != methods.end();
    const std::string& product = g.product.empty() && ruled ? rules->name : g.product;
    if (ruled && rules->days_in_hive.value_or(0) > 0)
      note(EndKind::StripsOut, g.colony, g.on, product, place);
    if (g.withdrawal_days > 0) note(EndKind::HoneyWaits, g.colony, g.on, product, place);
    if (ruled && rules->supers_after_days.value_or(0) > 0)
      note(EndKind::SupersWait, g.colony, g.on, product, place);
  }
  void see_vapor(WalkId walk, ColonyId colony, Date on, std::size_t place) {
    const Of& of = walks[walk];
    if (of.honey > 0) note(EndKind::HoneyWaits, colony, on, of.product, place);
    if (of.supers > 0) note(EndKind::SupersWait, colony, on, of.product, place);
  }
  void see(WalkId walk, const LabelRules& rules) {
    const int supers = rules.limits ? rules.limits->supers_after_days.value_or(0) : 0;
    walks[walk] = {rules.product, rules.withdrawal_days, supers};
  }
  void see(const EntryCorrected& corrected, const Stamp& at, std::size_t place) {
    const ReplacementBody& instead = corrected.instead.body();
    if (const auto* g = std::get_if<OtherTreatmentGiven>(&instead)) see(*g, place);
    if (const auto* s = std::get_if<VaporizerSet>(&instead))
      see_vapor(s->walk, s->colony, local_date(at), place);
  }
  void see(const Event& event, std::size_t place) {
    const Body& body = event.body;
    if (const auto* c = std::get_if<ColonyAdded>(&body)) stood[c->colony].insert(c->yard);
    if (const auto* c = std::get_if<ColonyMoved>(&body)) stood[c->colony].insert(c->to);
    if (const auto* o = std::get_if<WalkOpened>(&body)) see(o->walk, o->rules);
    if (const auto* s = std::get_if<VaporizerSet>(&body))
      see_vapor(s->walk, s->colony, local_date(event.stamp), place);
    if (const auto* l = std::get_if<EnteredLate>(&body); l && !l->passed) {
      see(l->walk, l->rules);
      see_vapor(l->walk, l->colony, l->on, place);
    }
    if (const auto* g = std::get_if<OtherTreatmentGiven>(&body)) see(*g, place);
    if (const auto* c = std::get_if<EntryCorrected>(&body)) see(*c, event.stamp, place);
  }
};

}  // namespace

std::vector<EndAppointment> end_appointments(const Farm& farm, std::span<const MethodRules> methods,
                                             Date today, Date since) {
  Announced announced{methods};
  farm.log.scan(0, [&](std::size_t i, const Entry& e) { announced.see(e.event, i); });
  std::map<Date, std::map<EndKey, TreatmentEnd>> as_of;
  const auto held = [&](const EndKey& key, Date on) -> const TreatmentEnd* {
    const auto [at, is_new] = as_of.try_emplace(on);
    if (is_new) at->second = holding(farm, methods, on);
    const auto end = at->second.find(key);
    return end == at->second.end() ? nullptr : &end->second;
  };
  std::vector<EndAppointment> list;
  for (EndAppointment& a : announced.list) {
    const EndKey key = key_of(a.end);
    const TreatmentEnd* end = held(key, today);
    if (end == nullptr && a.end.given < since) continue;
    if (end == nullptr) end = held(key, a.end.given);
    a.over = end == nullptr;
    if (end != nullptr) a.end = *end;
    list.push_back(std::move(a));
  }
  return list;
}

}  // namespace storage
