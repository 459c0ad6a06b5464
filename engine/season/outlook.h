// engine/season/outlook.h -- what is to be expected: growth without treatment, and what courses do.
//
// Model, +-15 points at best. Every figure is a band: from the limits of the count, from the loss
// at emergence (0.15 to 0.30), and from the kill of a round, as far as courses have taught it
// (engine/season/kills.h). "Versus no treatment" and "versus today" always stand
// side by side. Nothing here makes anything green: only a count does.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/season/assumed.h"
#include "engine/season/counts.h"
#include "engine/season/kills.h"

namespace engine {

// Gaps of 4 to 7 days differ by less than everything that is not known. That holds for rounds that
// span two weeks and more: four rounds in nine days did far worse in a trial than the model says
// (Prouty et al. 2023: 40 %, -18 to 82, where rounds every 5 and 7 days gave 96 and 92 %).
inline constexpr int kGapEqualMost = 7;
// Days from the first round to the last: a worker cell is capped for 12 days, so a shorter span
// never reaches some of the mites that were under caps (trade arithmetic, not from a source).
inline constexpr int kShortSpan = 12;
inline constexpr const char* kShortSpanWords =
    "Rounds that span less than 12 days: the model is too good for them. Four rounds in nine days "
    "fell far short in a trial.";

// Mites on 100 bees; above it cells are crowded and bees die, which the model does not know.
inline constexpr double kModelHolds = 15;

inline constexpr const char* kModelCaution =
    "Model, 15 points either way at best; only a count shows what is there.";

// A wash per 100 bees by day.
struct WashBand {
  double low = 0, mid = 0, high = 0;
};

// Without any treatment from today on.
struct Growth {
  Date from{};  // the day of the count; days[0]
  Date today{};
  Date end{};                                                // of the season
  std::vector<WashBand> days;                                // one a day to the end
  Threshold threshold;                                       // of today
  std::optional<Date> crosses_first, crosses, crosses_last;  // high, middle, low of the band
  WashBand week;              // growth of all mites in the coming week, percent
  bool beyond_model = false;  // above 15 per 100 somewhere: the model no longer holds
  std::vector<std::string>
      lines;  // for the keeper: where it stands, when it crosses, a week's cost
  std::vector<std::string> assumptions;
};

// What waiting a week costs: "Waiting a week: mites change by +12 %, between +5 and +19 %; the wash
// from 2.1 to 2.4 per 100 bees (model)."
[[nodiscard]] std::string week_words(const Growth& growth);

// From the colony's last count; rounds given since are taken off with the kill.
[[nodiscard]] std::optional<Growth> colony_growth(const Farm& farm, ColonyId colony, Date today,
                                                  const KillBand& kill);
// From all colonies of the yard's last count together.
[[nodiscard]] std::optional<Growth> yard_growth(const Farm& farm, YardId yard, Date today,
                                                const KillBand& kill);

// By how much a wash can rise in so many days without treatment and without mites from outside, at
// the upper end of the band.
[[nodiscard]] double bred_at_most(const std::vector<BroodNote>& brood, std::optional<Place> place,
                                  Date from, int days);

// The brood notes that stand for the yard: those of its first noted colony when more than half of
// the colonies have any.
[[nodiscard]] std::vector<BroodNote> yard_brood(const Farm& farm, YardId yard);

// What one schedule does by one day, at both ends of the kill. Percent.
struct Prospect {
  std::optional<double> fewer_than_untreated;  // more is better
  std::optional<double> change_from_today;     // below zero: fewer mites than today
  double wash = 0;                             // per 100 on the day; misleading after a caging
};

enum class OptionKind { Broodless, Caged, WithBrood };
constexpr std::array<const char*, 3> enum_names(OptionKind) {
  return {"broodless", "caged", "with_brood"};
}
struct CourseOption {
  OptionKind kind = OptionKind::WithBrood;
  int rounds = 1;
  int gap = 5;                 // days, of the evaluation; 4 to 7 count as equal
  Date first{};                // of the first round
  std::optional<Date> latest;  // of a window that closes
  bool advised = false;     // among those with brood: the fewest rounds within 2 points of the best
  Prospect field, exposed;  // low and high end of the kill
  Prospect headline;        // of the low end, or of the middle once enough courses have taught it
  std::vector<WashBand> days;  // expected wash from today: low (exposed) to high (field) end
  double cells_opened = 0;     // of the worker cells capped at the first round, by the last; not
                               // a measure of what it does
  std::string title;
  std::vector<std::string> lines;
};

struct OptionsAsk {
  Date today{};
  KillBand kill;
  int most_rounds = 7;
  int label_gap = 1;
  int coming_in = 0;  // what if: mites a day into each colony from others, from today on; a guess
};
struct Options {
  YardId yard;
  Date by{};                        // the day all are compared on
  std::vector<CourseOption> list;   // windows without brood first, then by rounds
  std::vector<WashBand> untreated;  // expected wash from today
  std::vector<std::string> cautions;
};
// nullopt: the yard was never counted, so there is nothing to start from.
[[nodiscard]] std::optional<Options> course_options(const Farm& farm, YardId yard,
                                                    const OptionsAsk& ask);

// The same for rounds on days that are planned already, those from today on; `rounds` may be empty.
// Compared two weeks after the last, six weeks from today at the least.
[[nodiscard]] std::optional<CourseOption> rounds_outlook(const Farm& farm, YardId yard,
                                                         const std::vector<Date>& rounds,
                                                         const OptionsAsk& ask);

// "37 to 68 % fewer mites than without treatment; versus today 54 % more to 23 % fewer".
[[nodiscard]] std::string words(const Prospect& field, const Prospect& exposed);

}  // namespace engine
