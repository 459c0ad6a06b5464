#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/farm/queries.h"
#include "engine/mites/run.h"
#include "engine/season/given.h"
#include "engine/season/outlook.h"

namespace engine {
namespace {

// Loss at emergence: field growth varies, so does this (r = 0.027 to 0.016 a day).
constexpr double kLossLeast = 0.15, kLossUsual = 0.23, kLossMost = 0.30;

// One end of the band: how much comes out of a cell, and what a round kills.
struct End {
  double loss = kLossUsual;
  double kill = 0;
  double per_100 = 0;  // on the day of the count
};

struct Start {
  Date counted{};
  std::vector<BroodNote> brood;
  std::optional<Place> place;
  std::vector<int> rounds;  // given since, days from the count
  double low = 0, mid = 0, high = 0;
};

mites::ColonyRun grow(const Start& s, const End& end, int days) {
  mites::Colony colony = assumed_colony(s.brood, s.place, s.counted).colony;
  colony.constants.emergence_loss = end.loss;
  const auto state =
      mites::start_of(colony, {mites::LoadUnit::WashPer100, std::max(end.per_100, 1e-6)});
  return mites::run(colony, state, {s.rounds, end.kill, 0}, days);
}

std::optional<Date> crossing(const Growth& g, double WashBand::*end) {
  const auto from = static_cast<std::size_t>(std::max(0, days_apart(g.from, g.today)));
  for (std::size_t i = from; i < g.days.size(); ++i)
    if (g.days[i].*end >= g.threshold.per_100) return date_after(g.from, static_cast<int>(i));
  return std::nullopt;
}

double week_percent(const mites::ColonyRun& run, std::size_t today) {
  const std::size_t later = std::min(today + 7, run.total.size() - 1);
  return run.total[today] > 0 ? 100 * (run.total[later] / run.total[today] - 1) : 0;
}

// Beyond what the model can say, only that.
std::string per_100(double wash) {
  return wash > kModelHolds ? fmt::format("over {:.0f}", kModelHolds) : fmt::format("{:.1f}", wash);
}

std::string when_crossed(const Growth& g) {
  const double limit = g.threshold.per_100;
  if (!g.crosses_first)
    return fmt::format("Stays below the threshold of {:.1f} until {} (model).", limit,
                       iso_date(g.end));
  const std::string earliest = g.crosses_first <= g.today ? "now" : iso_date(*g.crosses_first);
  const std::string latest = g.crosses_last ? iso_date(*g.crosses_last) : "not this season";
  if (g.crosses_last && *g.crosses_last <= g.today)
    return fmt::format("Above the threshold of {:.1f} already (model).", limit);
  return fmt::format("Crosses the threshold of {:.1f}{}; the band says {} to {} (model).", limit,
                     g.crosses ? " about " + iso_date(*g.crosses) : " perhaps", earliest, latest);
}

void add_lines(Growth& g) {
  const WashBand& last = g.days.back();
  g.lines.push_back(fmt::format(
      "Without treatment a wash on {} is expected to show {}, between {} and {} per 100 "
      "bees (model).",
      iso_date(g.end), per_100(last.mid), per_100(last.low), per_100(last.high)));
  g.lines.push_back(when_crossed(g));
  g.lines.push_back(week_words(g));
  if (g.beyond_model)
    g.lines.emplace_back(
        "Above 15 per 100 bees the model no longer holds: read it as \"far too "
        "many\".");
  g.lines.emplace_back(kModelCaution);
}

Growth growth_of(const Start& s, const KillBand& kill, const Threshold& threshold, Date today) {
  Growth g;
  g.from = s.counted;
  g.today = std::max(today, s.counted);
  g.end = season_end(g.today, s.place);
  g.threshold = threshold;
  const int days = days_apart(g.from, g.end);
  const auto at = static_cast<std::size_t>(days_apart(g.from, g.today));
  const auto low = grow(s, {kLossMost, kill.high, s.low}, days);
  const auto mid = grow(s, {kLossUsual, kill.mid, s.mid}, days);
  const auto high = grow(s, {kLossLeast, kill.low, s.high}, days);
  for (std::size_t i = 0; i < mid.wash_per_100.size(); ++i)
    g.days.push_back({low.wash_per_100[i], mid.wash_per_100[i], high.wash_per_100[i]});
  g.week = {week_percent(low, at), week_percent(mid, at), week_percent(high, at)};
  g.crosses_first = crossing(g, &WashBand::high);
  g.crosses = crossing(g, &WashBand::mid);
  g.crosses_last = crossing(g, &WashBand::low);
  g.beyond_model = std::any_of(g.days.begin(), g.days.end(),
                               [](const WashBand& d) { return d.high > kModelHolds; });
  add_lines(g);
  g.assumptions = assumed_colony(s.brood, s.place, s.counted).assumptions;
  return g;
}

std::vector<int> rounds_since(const Farm& farm, ColonyId colony, Date counted, Date today) {
  std::vector<int> list;
  for (const Date on : vapor_days(farm, colony))
    if (on >= counted && on <= today) list.push_back(days_apart(counted, on));
  return list;
}

}  // namespace

std::string week_words(const Growth& g) {
  const auto at = static_cast<std::size_t>(std::max(0, days_apart(g.from, g.today)));
  const std::size_t later = std::min(at + 7, g.days.size() - 1);
  return fmt::format(
      "Waiting a week: mites change by {:+.0f} %, between {:+.0f} and {:+.0f} %; the wash from {} "
      "to {} per 100 bees (model).",
      g.week.mid, g.week.low, g.week.high, per_100(g.days[at].mid), per_100(g.days[later].mid));
}

std::optional<Growth> colony_growth(const Farm& farm, ColonyId id, Date today,
                                    const KillBand& kill) {
  const auto count = colony_count(farm, id, today);
  if (!count) return std::nullopt;
  const Colony& colony = farm.colonies.at(id);
  const auto place = farm.yards.at(colony.yard).place;
  const Date counted = count->spell.last;
  const Start s{counted,
                colony.brood,
                place,
                rounds_since(farm, id, counted, today),
                count->estimate.low,
                count->estimate.per_100,
                count->estimate.high};
  return growth_of(s, kill, threshold_on(farm.setup.thresholds, today, place), today);
}

std::optional<Growth> yard_growth(const Farm& farm, YardId yard, Date today, const KillBand& kill) {
  const auto count = yard_count(farm, yard, today);
  if (!count) return std::nullopt;
  const auto place = farm.yards.at(yard).place;
  Date counted = count->colonies.front().spell.last;
  for (const ColonyCount& c : count->colonies) counted = std::max(counted, c.spell.last);
  const Start s{counted,
                yard_brood(farm, yard),
                place,
                rounds_since(farm, count->worst, counted, today),
                count->estimate.nb_low,
                count->estimate.pooled_per_100,
                count->estimate.nb_high};
  return growth_of(s, kill, threshold_on(farm.setup.thresholds, today, place), today);
}

double bred_at_most(const std::vector<BroodNote>& brood, std::optional<Place> place, Date from,
                    int days) {
  const mites::ColonyRun run = grow({from, brood, place, {}, 1, 1, 1}, {kLossLeast, 0, 1}, days);
  return run.wash_per_100.back() / run.wash_per_100.front();
}

}  // namespace engine
