#include "engine/season/reinfestation.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "engine/farm/queries.h"
#include "engine/season/course_pairs.h"
#include "engine/season/given.h"
#include "engine/words/words.h"

namespace engine {
namespace {

// Treatments long before the low count say nothing of it.
constexpr int kTreatedWithin = 90;

std::optional<CoursePair> last_two(const Farm& farm, ColonyId colony, Date today) {
  std::vector<Spell> all = spells(farm, colony, today);
  if (all.size() < 2) return std::nullopt;
  const Spell &low = all[all.size() - 2], &high = all.back();
  if (days_apart(low.last, high.first) < kComingInLeast) return std::nullopt;
  const std::vector<Date> given = days_treated(farm, colony);
  const auto after = std::upper_bound(given.begin(), given.end(), low.first);
  if (after == given.begin()) return std::nullopt;
  const int since = days_apart(*(after - 1), low.first);
  if (since < kAfterLeast || since > kTreatedWithin) return std::nullopt;
  if (treated_between(farm, colony, low.first, high.last)) return std::nullopt;
  return CoursePair{colony, low, high};
}

double bred(const Farm& farm, YardId yard, const std::vector<CoursePair>& pairs) {
  double most = 0;
  for (const CoursePair& p : pairs)
    most = std::max(most, bred_at_most(farm.colonies.at(p.colony).brood, farm.yards.at(yard).place,
                                       p.before.last, days_apart(p.before.last, p.after.last)));
  return most;
}

double per_100(const mites::Wash& w) {
  return 100 * static_cast<double>(w.mites) / static_cast<double>(w.bees);
}

}  // namespace

std::optional<ComingIn> mites_coming_in(const Farm& farm, YardId yard, Date today) {
  std::vector<CoursePair> pairs;
  ComingIn in{.yard = yard};
  for (const Colony* c : colonies_of(farm, yard)) {
    auto pair = last_two(farm, c->id, today);
    if (!pair) continue;
    in.low_on = std::max(in.low_on, pair->before.last);
    in.high_on = std::max(in.high_on, pair->after.last);
    pairs.push_back(std::move(*pair));
  }
  if (pairs.empty()) return std::nullopt;
  const auto place = farm.yards.at(yard).place;
  in.low_per_100 = per_100(sum_of(pairs, &CoursePair::before));
  in.high_per_100 = per_100(sum_of(pairs, &CoursePair::after));
  if (in.low_per_100 >= threshold_on(farm.setup.thresholds, in.low_on, place).per_100)
    return std::nullopt;
  in.least_ratio = 1 - effect_of(pairs, {}).high / 100;
  in.bred_ratio = bred(farm, yard, pairs);
  if (in.least_ratio <= in.bred_ratio) return std::nullopt;
  in.count_again = date_after(in.high_on, kCountAgainDays);
  in.line = fmt::format(
      "{:.1f} per 100 bees on {}, {:.1f} on {}: more mites than {} can have bred ({:.1f} times as "
      "many at the least, the model's most is {:.1f}): look at the neighbours. Count again on {}.",
      in.low_per_100, iso_date(in.low_on), in.high_per_100, iso_date(in.high_on),
      pairs.size() == 1 ? "this colony" : "these colonies", in.least_ratio, in.bred_ratio,
      iso_date(in.count_again));
  return in;
}

}  // namespace engine
