#include "engine/season/outlook.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/farm/queries.h"
#include "engine/mites/compare.h"
#include "engine/season/brood.h"
#include "engine/words/words.h"

namespace engine {
namespace {

constexpr int kLeastHorizon = 42;  // days; all options are compared on one day
constexpr int kAfterLast = 14;     // days from the last round to that day, at least
constexpr int kUsualGap = 5;
constexpr double kTolerance = 2;  // points; differences below it are no differences

// A schedule and the colony it is given to.
struct Candidate {
  CourseOption option;
  mites::Colony colony;
  std::vector<int> days;
};

struct Base {
  Date today{};
  double per_100 = 0;  // today
  mites::Colony colony;
  int coming_in = 0;  // mites a day
};

// The yard as it is expected to be today; none when it was never counted.
std::optional<Base> base_of(const Farm& farm, YardId yard, const OptionsAsk& ask) {
  const auto growth = yard_growth(farm, yard, ask.today, ask.kill);
  if (!growth) return std::nullopt;
  const auto today = static_cast<std::size_t>(days_apart(growth->from, growth->today));
  const auto place = farm.yards.at(yard).place;
  return Base{growth->today, std::max(growth->days[today].mid, 1e-6),
              assumed_colony(yard_brood(farm, yard), place, growth->today).colony, ask.coming_in};
}

mites::ColonyRun run_of(const Base& b, mites::Colony colony, const std::vector<int>& days,
                        double kill, int horizon) {
  colony.immigration = b.coming_in;
  // The mites of today are those of the colony as it is, whatever is done from today on.
  const auto state = mites::start_of(b.colony, {mites::LoadUnit::WashPer100, b.per_100});
  return mites::run(colony, state, {days, kill, 0}, horizon);
}

Prospect outcome_of(const mites::ColonyRun& treated, const mites::ColonyRun& untreated, int day) {
  const mites::Comparison c = mites::compare(treated, untreated, day);
  return {c.reduction_pct, c.change_pct, treated.wash_per_100[static_cast<std::size_t>(day)]};
}

void evaluate(const Base& b, const KillBand& kill, Candidate& c, int horizon) {
  const auto untreated = run_of(b, b.colony, {}, 0, horizon);
  const auto field = run_of(b, c.colony, c.days, kill.low, horizon);
  const auto exposed = run_of(b, c.colony, c.days, kill.high, horizon);
  c.option.field = outcome_of(field, untreated, horizon);
  c.option.exposed = outcome_of(exposed, untreated, horizon);
  const auto headline = run_of(b, c.colony, c.days, kill.headline(), horizon);
  c.option.headline = outcome_of(headline, untreated, horizon);
  c.option.cells_opened = field.worker_cells_opened;
  for (std::size_t i = 0; i < field.wash_per_100.size(); ++i) {
    const double low = exposed.wash_per_100[i], high = field.wash_per_100[i];
    c.option.days.push_back({low, (low + high) / 2, high});
  }
}

std::string dates_words(Date first, std::optional<Date> latest) {
  return latest ? fmt::format("between {} and {}", iso_date(first), iso_date(*latest))
                : fmt::format("on {}", iso_date(first));
}

void say(Candidate& c, const Base& b, const KillBand& kill) {
  CourseOption& o = c.option;
  o.lines.push_back(words(o.field, o.exposed) + " (model).");
  if (kill.courses >= kMiddleFrom && o.headline.fewer_than_untreated)
    o.lines.push_back(fmt::format("Most likely {:.0f} % fewer, from {} of yours (model).",
                                  *o.headline.fewer_than_untreated,
                                  counted(kill.courses, "course", "courses")));
  if (o.kind == OptionKind::WithBrood && c.days.size() > 1 &&
      c.days.back() - c.days.front() < kShortSpan)
    o.lines.emplace_back(kShortSpanWords);
  if (o.kind == OptionKind::WithBrood)
    o.lines.push_back(
        fmt::format("Expected wash then {:.1f} to {:.1f} per 100 bees, today {:.1f} "
                    "(model).",
                    o.field.wash, o.exposed.wash, b.per_100));
  if (o.kind == OptionKind::WithBrood && o.cells_opened > 0.995)
    o.lines.emplace_back(
        "Every cell that was capped at the first round has opened by the last. That is no measure "
        "of success: between rounds most mites slip under new caps.");
  if (o.kind != OptionKind::WithBrood)
    o.lines.emplace_back(
        "Without brood one round meets nearly all mites, hence this comes first. Judge it by a "
        "count two weeks after "
        "laying has settled: before that a wash misleads.");
  if (b.coming_in > 0)
    o.lines.push_back(
        fmt::format("If {} a day came in from other colonies: a guess, nobody can count them.",
                    counted(static_cast<std::size_t>(b.coming_in), "mite", "mites")));
  if (std::any_of(o.days.begin(), o.days.end(),
                  [](const WashBand& d) { return d.high > kModelHolds; }))
    o.lines.push_back(fmt::format(
        "On some days it shows more than {:.0f} per 100 bees{}: there the model no "
        "longer holds.",
        kModelHolds, o.kind == OptionKind::Caged ? ", since all mites are on bees then" : ""));
}

// Windows the keeper noted. They need not hold for every colony.
std::optional<Candidate> broodless(const Farm& farm, YardId yard, const Base& b) {
  std::optional<BroodlessWindow> window;
  std::size_t with = 0, all = 0;
  const std::vector<BroodNote>* notes = nullptr;
  for (const Colony* colony : colonies_of(farm, yard)) {
    ++all;
    const auto one = broodless_window(colony->brood, b.today);
    if (!one) continue;
    ++with;
    if (!window) window = one, notes = &colony->brood;
    window->first = std::max(window->first, one->first);
    window->last = std::min(window->last, one->last);
  }
  if (!window || window->last < std::max(window->first, b.today)) return std::nullopt;
  Candidate c;
  c.option.kind = window->caged ? OptionKind::Caged : OptionKind::Broodless;
  c.option.first = std::max(window->first, b.today);
  c.option.latest = window->last;
  c.option.title =
      fmt::format("One round without brood, {}", dates_words(c.option.first, c.option.latest));
  c.option.lines.push_back(
      fmt::format("Noted for {} of {}.", with, counted(all, "colony", "colonies")));
  c.colony = assumed_colony(*notes, farm.yards.at(yard).place, b.today).colony;
  c.days = {days_apart(b.today, c.option.first)};
  return c;
}

Candidate winter(const Base& b) {
  Candidate c;
  c.option.kind = OptionKind::Broodless;
  c.option.first = b.today;
  c.option.title = "One round now, if there is no brood";
  c.option.lines.emplace_back(
      "At this time of the year there may be none: look first, and note what you find.");
  c.colony = b.colony;
  c.colony.cages.push_back({-kDaysToBroodless, 1});
  c.days = {0};
  return c;
}

Candidate caged(const Base& b) {
  Candidate c;
  c.option.kind = OptionKind::Caged;
  c.option.first = date_after(b.today, kDaysToBroodless);
  c.option.title =
      fmt::format("Queen caged {} days, one round {}", kDaysToBroodless, iso_date(c.option.first));
  c.colony = b.colony;
  c.colony.cages.push_back({0, kDaysToBroodless});
  c.days = {kDaysToBroodless};
  return c;
}

Candidate with_brood(const Base& b, int rounds, int gap) {
  Candidate c;
  c.option.rounds = rounds;
  c.option.gap = gap;
  c.option.first = b.today;
  const bool equal = gap <= kGapEqualMost && (rounds - 1) * std::max(4, gap - 1) >= kShortSpan;
  c.option.title = rounds == 1 ? "1 round"
                   : equal     ? fmt::format("{} rounds, {} to {} days apart", rounds,
                                             std::max(4, gap - 1), kGapEqualMost)
                               : fmt::format("{} rounds, {} days apart", rounds, gap);
  c.colony = b.colony;
  c.days = mites::spaced_days(0, rounds, gap);
  return c;
}

void advise(std::vector<Candidate>& list) {
  const auto points = [](const Candidate& c) { return c.option.headline.fewer_than_untreated; };
  double best = -1e9;
  for (const Candidate& c : list)
    if (c.option.kind == OptionKind::WithBrood) best = std::max(best, points(c).value_or(-1e9));
  for (Candidate& c : list)
    if (c.option.kind == OptionKind::WithBrood && points(c) && *points(c) >= best - kTolerance) {
      c.option.advised = true;
      return;
    }
}

std::vector<Candidate> candidates(const Farm& farm, YardId yard, const OptionsAsk& ask,
                                  const Base& b) {
  std::vector<Candidate> list;
  auto noted = broodless(farm, yard, b);
  const bool laying = b.colony.worker_eggs.at(0) >= 50;
  if (noted) list.push_back(std::move(*noted));
  if (!noted && !laying) list.push_back(winter(b));
  if (!noted && laying) list.push_back(caged(b));
  const int gap = std::max(kUsualGap, ask.label_gap);
  for (int n = 1; n <= std::max(1, ask.most_rounds); ++n) list.push_back(with_brood(b, n, gap));
  return list;
}

std::string percent(double value) { return fmt::format("{:.0f}", std::abs(value)); }

std::string change_words(double change) {
  if (std::abs(change) < 0.5) return "as many";
  return fmt::format("{} % {}", percent(change), change > 0 ? "more" : "fewer");
}

}  // namespace

std::vector<BroodNote> yard_brood(const Farm& farm, YardId yard) {
  const auto all = colonies_of(farm, yard);
  const auto noted = [](const Colony* c) { return !c->brood.empty(); };
  const auto first = std::find_if(all.begin(), all.end(), noted);
  const auto n = static_cast<std::size_t>(std::count_if(all.begin(), all.end(), noted));
  if (first == all.end() || 2 * n <= all.size()) return {};
  return (*first)->brood;
}

std::optional<CourseOption> rounds_outlook(const Farm& farm, YardId yard,
                                           const std::vector<Date>& rounds, const OptionsAsk& ask) {
  const auto base = base_of(farm, yard, ask);
  if (!base) return std::nullopt;
  Candidate c;
  c.colony = base->colony;
  for (const Date d : rounds)
    if (d >= base->today) c.days.push_back(days_apart(base->today, d));
  c.option.rounds = static_cast<int>(c.days.size());
  c.option.first = c.days.empty() ? base->today : date_after(base->today, c.days.front());
  c.option.title = counted(c.days.size(), "round to come", "rounds to come");
  const int last = c.days.empty() ? 0 : c.days.back() + kAfterLast;
  evaluate(*base, ask.kill, c, std::max(kLeastHorizon, last));
  say(c, *base, ask.kill);
  return std::move(c.option);
}

std::optional<Options> course_options(const Farm& farm, YardId yard, const OptionsAsk& ask) {
  const auto base = base_of(farm, yard, ask);
  if (!base) return std::nullopt;
  const Base& b = *base;
  std::vector<Candidate> list = candidates(farm, yard, ask, b);
  int horizon = kLeastHorizon;
  for (const Candidate& c : list) horizon = std::max(horizon, c.days.back() + kAfterLast);
  Options out{yard, date_after(b.today, horizon), {}, {}, {}};
  for (Candidate& c : list) evaluate(b, ask.kill, c, horizon), say(c, b, ask.kill);
  advise(list);
  for (Candidate& c : list) out.list.push_back(std::move(c.option));
  for (const double wash : run_of(b, b.colony, {}, 0, horizon).wash_per_100)
    out.untreated.push_back({wash, wash, wash});
  out.cautions = {
      fmt::format("Compared on {}. One round is taken to kill {:.0f} to {:.0f} % of the "
                  "mites it can reach: {}.",
                  iso_date(out.by), 100 * ask.kill.low, 100 * ask.kill.high, ask.kill.source),
      kModelCaution, "Your label decides dose, number and spacing."};
  return out;
}

std::string words(const Prospect& field, const Prospect& exposed) {
  if (!field.fewer_than_untreated || !exposed.fewer_than_untreated) return "No mites to compare";
  std::string out = fmt::format("{:.0f} to {:.0f} % fewer mites than without treatment",
                                *field.fewer_than_untreated, *exposed.fewer_than_untreated);
  if (field.change_from_today && exposed.change_from_today)
    out += fmt::format("; versus today {} to {}", change_words(*field.change_from_today),
                       change_words(*exposed.change_from_today));
  return out;
}

}  // namespace engine
