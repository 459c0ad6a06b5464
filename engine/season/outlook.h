// engine/season/outlook.h -- what is to be expected: growth without treatment, and what courses do.
//
// Model, +-15 points at best. Every figure is a band: from the limits of the count, from the loss
// at emergence (0.15 to 0.30), and from a kill between what field trials and what exposed mites
// show, until the yard's own kill is learned. "Versus no treatment" and "versus today" always stand
// side by side. Nothing here makes anything green: only a count does.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/season/assumed.h"
#include "engine/season/counts.h"

namespace engine {

// Gaps of 4 to 7 days differ by less than everything that is not known.
inline constexpr int kGapEqualMost = 7;

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

// From the colony's last count; rounds given since are taken off with the band's kill.
[[nodiscard]] std::optional<Growth> colony_growth(const Farm& farm, ColonyId colony, Date today);
// From all colonies of the yard's last count together.
[[nodiscard]] std::optional<Growth> yard_growth(const Farm& farm, YardId yard, Date today);

// The share of exposed mites one round kills.
struct KillBand {
  double low = 0.31, high = 0.89;
  std::optional<double> learned;  // the yard's own; low and high are then its range
  std::string source;
};
// For so many grams of dihydrate a brood box.
[[nodiscard]] KillBand kill_band(Mass dihydrate_per_box);

// For the dose of the label chosen in Setup; for 1 g while none is chosen.
[[nodiscard]] KillBand usual_kill(const Farm& farm);

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
  Prospect field, exposed;  // low and high end of the kill; the first is the headline
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
