// The rules of each method, applied to what was given and is not over yet.
#include "engine/method/ends.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/queries.h"
#include "engine/words/words.h"

namespace engine {
namespace {

// Collects ends, equal ones of a yard in one.
struct Ends {
  const Farm& farm;
  Date today;
  std::vector<TreatmentEnd> all{};

  void add(TreatmentEnd end, ColonyId colony) {
    const auto at = std::find_if(all.begin(), all.end(), [&](const TreatmentEnd& e) {
      return e.kind == end.kind && e.yard == end.yard && e.product == end.product &&
             e.on == end.on && e.from_removal_to_come == end.from_removal_to_come &&
             e.given == end.given;
    });
    TreatmentEnd& kept = at == all.end() ? all.emplace_back(std::move(end)) : *at;
    if (std::find(kept.colonies.begin(), kept.colonies.end(), colony) == kept.colonies.end())
      kept.colonies.push_back(colony);
  }
  // `like` waits so many days from a day; nothing when that is over.
  void wait(TreatmentEnd like, EndKind kind, ColonyId colony, Date from, int days) {
    like.kind = kind;
    like.on = date_after(from, days);
    if (days > 0 && like.on > today) add(std::move(like), colony);
  }
};

const MethodRules* rules_of(const OtherTreatmentGiven& given,
                            std::span<const MethodRules> methods) {
  const auto at = std::find_if(methods.begin(), methods.end(), [&](const MethodRules& m) {
    return given.rules && m.id == *given.rules;
  });
  return at == methods.end() ? nullptr : &*at;
}

void add_other(Ends& ends, const Colony& colony, const OtherTreatmentGiven& given,
               std::span<const MethodRules> methods) {
  if (given.on > ends.today) return;
  const MethodRules* rules = rules_of(given, methods);
  const std::string product = given.product.empty() && rules ? rules->name : given.product;
  const int stays = rules ? rules->days_in_hive.value_or(0) : 0;
  const bool inside = stays > 0 && !given.days_given;
  const bool asked = inside && days_apart(given.on, ends.today) <= stays + kDaysStripsAsked;
  const Date out = date_after(given.on, given.days_given.value_or(stays));
  TreatmentEnd end{EndKind::StripsOut, colony.yard, product, out, {}, false, given.on};
  if (asked) ends.add(end, colony.id);
  const bool removal = rules && rules->wait_from == CountedFrom::Removal;
  // Strips that are in longer than they should make the wait longer.
  Date from = removal ? out : given.on;
  if (removal && asked) from = std::max(out, ends.today);
  end.from_removal_to_come = removal && inside;
  ends.wait(end, EndKind::HoneyWaits, colony.id, from, given.withdrawal_days);
  if (rules)
    ends.wait(end, EndKind::SupersWait, colony.id, from, rules->supers_after_days.value_or(0));
}

void add_vapor(Ends& ends, const Walk& walk) {
  const int honey = walk.rules.withdrawal_days;
  const int supers = walk.rules.limits ? walk.rules.limits->supers_after_days.value_or(0) : 0;
  if (honey <= 0 && supers <= 0) return;
  for (const Stop& stop : walk.stops) {
    const auto at = ends.farm.colonies.find(stop.colony);
    if (at == ends.farm.colonies.end() || at->second.lost) continue;
    for (const Treatment& t : stop.treatments) {
      const Date on = local_date(t.set_at);
      if (on > ends.today) continue;
      const TreatmentEnd end{
          EndKind::HoneyWaits, at->second.yard, walk.rules.product, on, {}, false, on};
      ends.wait(end, EndKind::HoneyWaits, stop.colony, on, honey);
      ends.wait(end, EndKind::SupersWait, stop.colony, on, supers);
    }
  }
}

}  // namespace

std::vector<TreatmentEnd> treatment_ends(const Farm& farm, std::span<const MethodRules> methods,
                                         Date on) {
  Ends ends{farm, on};
  for (const Yard* yard : yards(farm))
    for (const Colony* colony : colonies_of(farm, yard->id))
      for (const OtherGiven& o : farm.otherwise_treated.of(colony->id)) {
        const auto place = farm.log.find(o.entry);
        if (!place) continue;
        const Entry entry = farm.log.copy(*place);
        if (const auto given = holds<OtherTreatmentGiven>(farm, entry))
          add_other(ends, *colony, *given, methods);
      }
  for (const auto& [id, walk] : farm.walks) add_vapor(ends, walk);
  std::stable_sort(ends.all.begin(), ends.all.end(),
                   [](const TreatmentEnd& a, const TreatmentEnd& b) { return a.on < b.on; });
  return std::move(ends.all);
}

std::string words_of(const TreatmentEnd& end) {
  const char* what = end.kind == EndKind::StripsOut    ? "strips out by"
                     : end.kind == EndKind::SupersWait ? "no supers before"
                                                       : "no honey for people before";
  return fmt::format("{} {} ({}){}{}{}", what, iso_date(end.on),
                     counted(end.colonies.size(), "colony", "colonies"),
                     end.product.empty() ? "" : ": ", end.product,
                     end.from_removal_to_come ? ", counted from the day they are out" : "");
}

}  // namespace engine
