#include "engine/season/counts.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/queries.h"
#include "engine/season/brood.h"
#include "engine/season/given.h"
#include "engine/words/words.h"

namespace engine {
namespace {

using mites::Decision;

// Field work and the model: within about four days of a round the wash shows too few.
constexpr int kTooSoonAfter = 4;
constexpr int kStandardBees = 300;  // Lee et al. 2010, J. Econ. Entomol. 103:1039-1050 (abstract)
constexpr int kStandardColonies = 8;

struct Dated {
  Date on{};
  mites::Wash wash;
};

std::vector<Dated> washes_of(const Farm& farm, ColonyId colony, Date on) {
  std::vector<Dated> list;
  farm.counts.each_of(colony, [&](const Count& c) {
    if (c.taken.on <= on && c.taken.bees)
      list.push_back({c.taken.on, {c.taken.mites, *c.taken.bees}});
  });
  std::stable_sort(list.begin(), list.end(),
                   [](const Dated& a, const Dated& b) { return a.on < b.on; });
  return list;
}

bool between(const std::vector<Date>& given, Date from, Date to) {
  return std::any_of(given.begin(), given.end(), [&](Date d) { return d >= from && d < to; });
}

mites::Cutoff cutoff_of(const Threshold& t) { return {.per_100 = t.per_100}; }

std::optional<Place> place_of(const Farm& farm, YardId yard) { return farm.yards.at(yard).place; }

std::string mites_on_bees(const mites::Wash& w) {
  return fmt::format("{} on {}", counted(static_cast<std::size_t>(w.mites), "mite", "mites"),
                     counted(static_cast<std::size_t>(w.bees), "bee", "bees"));
}

std::string what_next(const ColonyCount& c) {
  const std::string limit = fmt::format("the threshold of {:.1f}", c.threshold.per_100);
  if (c.by_point_estimate)
    return fmt::format("{} washes did not decide against {}; the figure itself does.",
                       c.spell.washes.size(), limit);
  switch (c.decision) {
    case Decision::Treat:
      return fmt::format("So many would be rare in a colony below {}.", limit);
    case Decision::Watch:
      return fmt::format("So few would be rare in a colony above {}. Count again in a month.",
                         limit);
    case Decision::Recount:
      return fmt::format("Too close to {} to tell: wash another {} bees, both count together.",
                         limit, kStandardBees);
  }
  return {};
}

void add_cautions(const Farm& farm, ColonyCount& c) {
  const ColonyId id = c.spell.colony;
  const std::vector<Date> given = days_treated(farm, id);
  if (between(given, date_after(c.spell.last, -kTooSoonAfter), date_after(c.spell.last, 1)))
    c.cautions.emplace_back(
        "Washed within 4 days of a treatment: it shows too few mites. Wash again two weeks after "
        "the last round.");
  const auto& notes = farm.colonies.at(id).brood;
  for (const BroodNote& n : notes) {
    const int since = days_apart(n.on, c.spell.last);
    if (n.what == BroodFact::QueenReleased && since >= 10 && since <= 28)
      c.cautions.emplace_back(
          "The queen was released not long ago: mites go under the new caps, a wash can show half "
          "of what is there (model).");
  }
  if (!notes.empty() && brood_on(notes, c.spell.last) == BroodState::None)
    c.cautions.emplace_back(
        "Without brood all mites are on bees: a wash shows up to three times as many as with brood "
        "(model).");
}

std::size_t usual_number(const YardCount& y) {
  return std::min<std::size_t>(kStandardColonies, y.in_yard);
}

// Once as many colonies are counted as anybody asks for and no more would help, the figure decides.
void decide(YardCount& y) {
  const auto& e = y.estimate;
  y.decision = e.verdict->decision;
  const bool enough = y.colonies.size() >= usual_number(y);
  y.by_point_estimate = y.decision == Decision::Recount && enough && !e.more_colonies_if_mean_holds;
  if (y.by_point_estimate)
    y.decision = e.pooled_per_100 >= y.threshold.per_100 ? Decision::Treat : Decision::Watch;
}

std::string yard_sentence(const YardCount& y) {
  const auto& e = y.estimate;
  return fmt::format(
      "{}: {} of {} counted, {:.1f} per 100 bees in all (95 % limits {:.1f} to "
      "{:.1f}), threshold {:.1f}.",
      words(y.decision), y.colonies.size(), counted(y.in_yard, "colony", "colonies"),
      e.pooled_per_100, e.nb_low, e.nb_high, y.threshold.per_100);
}

void add_advice(const Farm& farm, YardCount& y) {
  const auto& e = y.estimate;
  const auto more = e.more_colonies_if_mean_holds;
  if (y.decision == Decision::Recount && more)
    y.advice.push_back(
        fmt::format("To decide, wash {} bees in each of {} if the mean holds.", kStandardBees,
                    counted(static_cast<std::size_t>(*more), "more colony", "more colonies")));
  if (y.by_point_estimate)
    y.advice.emplace_back(
        "Not even the whole yard would decide at this mean: the figure itself does. A second wash "
        "of each colony would narrow it.");
  const std::size_t usual = usual_number(y);
  if (y.colonies.size() < usual)
    y.advice.push_back(fmt::format(
        "Count {} more: a published plan washes {} bees in each of {} colonies, whatever the size "
        "of the yard (Lee and others 2010).",
        counted(usual - y.colonies.size(), "colony", "colonies"), kStandardBees,
        kStandardColonies));
  const auto worst = std::find_if(y.colonies.begin(), y.colonies.end(),
                                  [&](const auto& c) { return c.spell.colony == y.worst; });
  y.advice.push_back(
      fmt::format("Most mites: {}, {}.", colony_name(farm, y.worst), words(worst->estimate)));
}

}  // namespace

std::vector<Spell> spells(const Farm& farm, ColonyId colony, Date on) {
  const std::vector<Dated> washes = washes_of(farm, colony, on);
  const auto given = washes.size() < 2 ? std::vector<Date>{} : days_treated(farm, colony);
  std::vector<Spell> list;
  for (const Dated& d : washes) {
    const bool new_one = list.empty() || days_apart(list.back().first, d.on) > kSpellDays ||
                         between(given, list.back().last, d.on);
    if (new_one) list.push_back({colony, d.on, d.on, {}});
    list.back().last = d.on;
    list.back().washes.push_back(d.wash);
  }
  return list;
}

std::optional<Spell> last_spell(const Farm& farm, ColonyId colony, Date on) {
  std::vector<Spell> all = spells(farm, colony, on);
  if (all.empty()) return std::nullopt;
  return std::move(all.back());
}

std::optional<ColonyCount> colony_count(const Farm& farm, ColonyId colony, Date on) {
  auto spell = last_spell(farm, colony, on);
  if (!spell) return std::nullopt;
  ColonyCount c{std::move(*spell), {}, {}};
  const mites::Wash all = c.spell.pooled();
  c.estimate = mites::estimate(all);
  c.threshold = threshold_on(farm.setup.thresholds, c.spell.last,
                             place_of(farm, farm.colonies.at(colony).yard));
  const mites::Cutoff cutoff = cutoff_of(c.threshold);
  c.decision = mites::decide(c.spell.washes, kWashesAllowed, cutoff);
  c.by_point_estimate =
      c.decision != Decision::Recount && mites::judge(all, cutoff).decision == Decision::Recount;
  if (c.decision == Decision::Recount)
    c.more_washes = mites::more_washes_if_rate_holds(all, kStandardBees, cutoff);
  c.sentence = fmt::format("{}: {}, {}. {}", words(c.decision), mites_on_bees(all),
                           words(c.estimate), what_next(c));
  add_cautions(farm, c);
  return c;
}

std::optional<YardCount> yard_count(const Farm& farm, YardId yard, Date on) {
  YardCount y;
  y.yard = yard;
  std::optional<Date> last;
  for (const Colony* colony : colonies_of(farm, yard)) {
    ++y.in_yard;
    auto count = colony_count(farm, colony->id, on);
    if (!count) continue;
    last = std::max(last.value_or(count->spell.last), count->spell.last);
    y.colonies.push_back(std::move(*count));
  }
  if (!last) return std::nullopt;
  std::erase_if(y.colonies, [&](const ColonyCount& c) {
    return days_apart(c.spell.last, *last) > kYardSpellDays;
  });
  y.threshold = threshold_on(farm.setup.thresholds, *last, place_of(farm, yard));
  mites::YardSample sample;
  for (const ColonyCount& c : y.colonies) sample.colonies.push_back(c.spell.pooled());
  sample.in_yard = static_cast<int>(y.in_yard);
  sample.cutoff = cutoff_of(y.threshold);
  y.estimate = mites::estimate(sample);
  y.worst =
      std::max_element(y.colonies.begin(), y.colonies.end(), [](const auto& a, const auto& b) {
        return a.estimate.per_100 < b.estimate.per_100;
      })->spell.colony;
  decide(y);
  y.sentence = yard_sentence(y);
  add_advice(farm, y);
  return y;
}

double urgency_of(const std::optional<YardCount>& count) {
  if (!count) return 1;
  return std::clamp(count->estimate.pooled_per_100 / count->threshold.per_100, 0.5, 5.0);
}

std::string words(const Threshold& t) {
  return fmt::format("Threshold {:.1f} per 100 bees ({}): {}.", t.per_100, words(t.season),
                     t.source);
}

std::string words(const mites::WashEstimate& e) {
  return fmt::format("{:.1f} per 100 bees (95 % limits {:.1f} to {:.1f})", e.per_100, e.low,
                     e.high);
}

const char* words(mites::Decision d) {
  constexpr std::array<const char*, 3> kWords{"Treat", "Watch", "Not decided"};
  return kWords[static_cast<std::size_t>(d)];
}

}  // namespace engine
