#include "engine/method/method.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "engine/farm/queries.h"
#include "engine/season/given.h"

namespace engine {
namespace {

std::string in_days(int n) { return n == 1 ? "1 day" : fmt::format("{} days", n); }

// Reasons as they are found; the verdict only ever gets worse.
struct Judge {
  MethodCheck out;
  void add(MethodWhy why, MethodVerdict verdict, std::string line) {
    out.verdict = std::max(out.verdict, verdict);
    out.reasons.push_back({why, std::move(line), verdict});
  }
  void stop(MethodWhy why, std::string line) { add(why, MethodVerdict::NotNow, std::move(line)); }
  void ask(MethodWhy why, std::string line) {
    add(why, MethodVerdict::CheckLabel, std::move(line));
  }
  void say(MethodWhy why, std::string line) { add(why, MethodVerdict::MayUse, std::move(line)); }
};

void judge_supers(Judge& j, const MethodRules& r, const MethodSituation& now) {
  if (!now.supers_on || r.supers == Supers::Allowed) return;
  if (r.supers == Supers::Forbidden)
    j.stop(MethodWhy::SupersOn, "Honey supers are on: take them off first.");
  else
    j.ask(MethodWhy::SupersUnknown, "Honey supers are on: check whether your label allows it.");
}

void judge_brood(Judge& j, const MethodRules& r, const MethodSituation& now) {
  if (!r.brood || *r.brood == BroodNeed::Any || now.brood == BroodState::None) return;
  if (now.brood == BroodState::Unknown)
    return j.ask(MethodWhy::BroodUnknown,
                 "It is for colonies with little or no brood: look, and note what you find.");
  j.stop(MethodWhy::BroodPresent, *r.brood == BroodNeed::None
                                      ? "It is for colonies without brood, and brood is present."
                                      : "It is for colonies with no brood or the least of the "
                                        "year, and brood is present.");
}

// What the rules do not say is no leave.
void judge_unknown(Judge& j, const MethodRules& r) {
  const bool stays =
      r.method != Method::Vapor && r.method != Method::Dribble && r.method != Method::BroodRemoval;
  const std::pair<bool, const char*> limits[] = {
      {r.brood.has_value(), "with which brood"},
      {r.uses_per_year.has_value(), "how often a year"},
      {r.min_interval_days.has_value(), "how many days apart"},
      {r.least || r.most || r.method == Method::Strip || r.method == Method::BroodRemoval,
       "in which air"},
      {!stays || r.days_in_hive, "how many days it stays in"}};
  std::string missing;
  for (const auto& [known, what] : limits)
    if (!known) missing += (missing.empty() ? "" : ", ") + std::string(what);
  if (!missing.empty())
    j.ask(MethodWhy::NotKnown, "Check your label: not known here " + missing + ".");
}

void judge_colony(Judge& j, const MethodRules& r) {
  if (r.least_frames && *r.least_frames > 0)
    j.ask(MethodWhy::Strength,
          fmt::format("Only for colonies with at least {} frames of brood.", *r.least_frames));
  if (r.entrance_open && *r.entrance_open)
    j.say(MethodWhy::Strength, "The entrance must be fully open while it works.");
}

void judge_temperature(Judge& j, const MethodRules& r, const MethodSituation& now) {
  if (!r.least && !r.most) return;
  if (!now.air)
    return j.ask(MethodWhy::TemperatureUnknown,
                 "It depends on the day's temperature: hold it against your label.");
  const Temperature air = now.air->air;
  if (r.least && air < *r.least)
    j.stop(MethodWhy::TooCold,
           fmt::format("Too cold: not below {:.1f} °C.", r.least->tenths_c / 10.0));
  if (r.most && air > *r.most)
    j.stop(MethodWhy::TooHot,
           fmt::format("Too hot: not above {:.1f} °C.", r.most->tenths_c / 10.0));
  if (r.temperature_days && *r.temperature_days > 0)
    j.ask(MethodWhy::TemperatureUnknown,
          fmt::format("Hold the warmest hour of the next {} against it too.",
                      in_days(*r.temperature_days)));
  // Such labels speak of day highs, and dusk is cooler.
  if (r.most && air <= *r.most && now.air->expected)
    j.ask(MethodWhy::TemperatureUnknown,
          "Only the evening's air is known: hold the warmest hour of the day against your label.");
}

void judge_uses(Judge& j, const MethodRules& r, const MethodSituation& now) {
  if (r.uses_per_year && *r.uses_per_year > 0 && now.uses_this_year >= *r.uses_per_year)
    j.stop(MethodWhy::UsedUp, fmt::format("Given on {} this year; no more than {} allowed.",
                                          in_days(now.uses_this_year), *r.uses_per_year));
  if (!r.min_interval_days || !now.last_use) return;
  const int since = days_apart(*now.last_use, now.on);
  if (since < *r.min_interval_days)
    j.stop(MethodWhy::TooSoon, fmt::format("The last time was {} ago; wait {} in between.",
                                           in_days(since), in_days(*r.min_interval_days)));
}

// Does rotation work? Little published evidence that it slows resistance in varroa (a review of
// 2023: Front. Bee Sci., 10.3389/frbee.2023.1297326, abstract); labels advise it all the same.
void advise(Judge& j, const MethodRules& r, const MethodSituation& now) {
  if (!r.moa_class.empty() && now.last_other && now.last_other->moa_class == r.moa_class)
    j.say(MethodWhy::SameClass,
          fmt::format("The last treatment was of the same class ({}). Labels advise another mode "
                      "of action where possible; the evidence that this slows resistance is weak.",
                      class_words(r)));
  const bool acid = r.method == Method::Vapor || r.method == Method::Dribble;
  if (acid && now.brood == BroodState::Present)
    j.say(MethodWhy::LeavesCapped,
          "It does not reach mites under caps: a window without brood does more with one round.");
  const char* from = r.wait_from == CountedFrom::Removal ? " from the day it is taken out" : "";
  std::string line =
      fmt::format("Honey for people must wait {}{}", in_days(r.withdrawal_days), from);
  if (r.supers_after_days && *r.supers_after_days > 0)
    line += fmt::format(", supers {}{}", in_days(*r.supers_after_days), from);
  j.say(MethodWhy::Withdrawal, line + "; your label decides.");
}

bool is_of(const OtherTreatmentGiven& given, const MethodRules& rules) {
  if (given.rules) return *given.rules == rules.id;
  // Strips are of many actives: without the rules named nobody knows which.
  return given.method == rules.method && rules.method != Method::Strip &&
         rules.method != Method::Other;
}

// What one colony was given, read from the log once.
struct Given {
  std::set<Date> vapor;
  std::vector<OtherTreatmentGiven> other;

  Given(const Farm& farm, ColonyId colony) {
    for (const Date on : vapor_days(farm, colony)) vapor.insert(on);
    for (const OtherGiven& o : farm.otherwise_treated.of(colony)) {
      const auto place = farm.log.find(o.entry);
      if (!place) continue;
      const Entry entry = farm.log.copy(*place);
      if (const auto given = holds<OtherTreatmentGiven>(farm, entry)) other.push_back(*given);
    }
  }
  [[nodiscard]] std::set<Date> days_of(const MethodRules& rules) const {
    std::set<Date> days_of = rules.method == Method::Vapor ? vapor : std::set<Date>{};
    for (const OtherTreatmentGiven& given : other)
      if (is_of(given, rules)) days_of.insert(given.on);
    return days_of;
  }
};

}  // namespace

MethodRules with_label(MethodRules vapor, const LabelRules& label) {
  vapor.supers = label.supers;
  vapor.withdrawal_days = label.withdrawal_days;
  if (label.limits) static_cast<LabelLimits&>(vapor) = *label.limits;
  return vapor;
}

MethodSituation situation_of(const Farm& farm, ColonyId id, const MethodRules& rules,
                             std::span<const MethodRules> all, Date on,
                             std::optional<AirKnown> air) {
  const Colony& colony = farm.colonies.at(id);
  const Given given(farm, id);
  MethodSituation now{on, colony.supers_on, brood_on(colony.brood, on), air, 0, {}, {}};
  for (const Date d : given.days_of(rules)) {
    if (d > on) continue;
    if (d.year() == on.year()) ++now.uses_this_year;
    now.last_use = d;
  }
  std::optional<Date> last;
  for (const MethodRules& other : all)
    for (const Date d : given.days_of(other))
      if (d <= on && (!last || d > *last)) last = d, now.last_other = &other;
  return now;
}

MethodCheck check(const MethodRules& rules, const MethodSituation& now) {
  Judge j;
  judge_supers(j, rules, now);
  judge_brood(j, rules, now);
  judge_temperature(j, rules, now);
  judge_uses(j, rules, now);
  judge_unknown(j, rules);
  judge_colony(j, rules);
  advise(j, rules, now);
  return j.out;
}

YardMethodCheck check_yard(const Farm& farm, YardId yard, const MethodRules& given,
                           std::span<const MethodRules> all, Date on, std::optional<AirKnown> air) {
  const bool labelled = given.method == Method::Vapor && farm.setup.rules;
  const MethodRules rules = labelled ? with_label(given, *farm.setup.rules) : given;
  YardMethodCheck out;
  for (const Colony* colony : colonies_of(farm, yard)) {
    const MethodCheck one = check(rules, situation_of(farm, colony->id, rules, all, on, air));
    out.verdict = std::max(out.verdict, one.verdict);
    if (one.verdict == MethodVerdict::MayUse) out.may_use.push_back(colony->id);
    for (const MethodReason& reason : one.reasons) {
      auto at = std::find_if(out.reasons.begin(), out.reasons.end(),
                             [&](const auto& r) { return r.reason.line == reason.line; });
      if (at == out.reasons.end()) at = out.reasons.insert(at, {reason, {}});
      at->colonies.push_back(colony->id);
    }
  }
  std::stable_sort(out.reasons.begin(), out.reasons.end(),
                   [](const auto& a, const auto& b) { return a.reason.why < b.reason.why; });
  return out;
}

std::optional<Temperature> noted_air(const Farm& farm, YardId yard, Date on) {
  const Walk* best = nullptr;
  for (const auto& [id, walk] : farm.walks) {
    if (!walk.conditions.temperature || local_date(walk.opened) != on) continue;
    const auto nearer = [&](const Walk& w) { return std::pair(w.yard == yard, w.opened.at); };
    if (best == nullptr || nearer(walk) > nearer(*best)) best = &walk;
  }
  return best ? best->conditions.temperature : std::nullopt;
}

std::optional<AirKnown> air_known(const Farm& farm, YardId yard, Date on) {
  if (const auto noted = noted_air(farm, yard, on)) return AirKnown{*noted};
  if (const auto expected = air_expected(farm, on, HomePart::Evening))
    return AirKnown{*expected, true};
  return std::nullopt;
}

const char* words(MethodVerdict v) {
  constexpr std::array<const char*, 3> kWords{"nothing here speaks against it",
                                              "check your label first", "not now"};
  return kWords[static_cast<std::size_t>(v)];
}

std::string class_words(const MethodRules& rules) {
  return rules.moa_class.empty() ? "not classified" : "IRAC group " + rules.moa_class;
}

std::string what_is_wrong(const MethodRules& r) {
  if (r.withdrawal_days < 0 || r.withdrawal_days > 365) return "withdrawal_days: must be 0 to 365";
  return what_is_wrong(static_cast<const LabelLimits&>(r));
}

}  // namespace engine
