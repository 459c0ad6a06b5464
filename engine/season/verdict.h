// engine/season/verdict.h -- did a course work: from washes before and after it, and from them
// only.
//
// With untreated colonies counted at the same times the Henderson-Tilton formula gives an efficacy;
// without them a fall in the counts is a change and is called that. Limits stand beside every
// figure. The kill of one round is learned by fitting the model to the two washes.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/mites/efficacy.h"
#include "engine/season/counts.h"
#include "engine/season/outlook.h"

namespace engine {

// A wash belongs to a course when it is this close (days). After: not before the rounds' own effect
// on the wash has passed, best two weeks after the last one. Own choices.
inline constexpr int kBeforeMost = 28;
inline constexpr int kAfterLeast = 5, kAfterMost = 35;

inline constexpr const char* kCheckWhy = "check dose, seal, drift from other colonies, resistance";

// The kill of one round that explains what was counted.
struct LearnedKill {
  double kill = 0;
  double low = 0, high = 1;  // from the limits of the counts
  bool at_edge = false;      // no kill in 0 to 1 explains them: taken at the edge
};

struct ColonyVerdict {
  ColonyId colony;
  Spell before, after;
  mites::Efficacy effect;  // efficacy with untreated colonies, else change; percent
  std::optional<LearnedKill> kill;
  bool failed = false;  // clearly: the best kill its counts allow is below the field end
  std::string sentence;
};

struct CourseVerdict {
  CourseId course;
  YardId yard;
  std::vector<Date> rounds;  // as they were walked
  mites::EfficacyMethod method = mites::EfficacyMethod::Reduction;
  std::size_t untreated = 0;  // colonies that served as controls
  mites::Efficacy effect;     // of all its colonies together
  std::optional<LearnedKill> kill;
  bool failed = false;
  std::vector<ColonyVerdict> colonies;  // counted before and after, in the keeper's order
  std::string sentence;
  std::vector<std::string> cautions;
};
// nullopt: no round walked yet, or no colony washed before and after.
[[nodiscard]] std::optional<CourseVerdict> course_verdict(const Farm& farm, CourseId course,
                                                          Date today);

// How a course went, by the washes of all its colonies together: less work than a verdict.
struct CourseOutcome {
  CourseId course;
  std::optional<LearnedKill> kill;  // nullopt: no mite was found before it
  bool failed = false;              // clearly
};
// Of the yard's last course that was counted before and after; nullopt: there is none.
[[nodiscard]] std::optional<CourseOutcome> last_outcome(const Farm& farm, YardId yard, Date today);

// The yard's own kill, from its last course that teaches one, else the usual band.
[[nodiscard]] KillBand yard_kill(const Farm& farm, YardId yard, Date today);

// A yard where the last two courses or more in a row failed.
struct FailingYard {
  YardId yard;
  int in_a_row = 0;
  std::string sentence;  // "... check dose, seal, drift, resistance"
};
[[nodiscard]] std::optional<FailingYard> failing_yard(const Farm& farm, YardId yard, Date today);

}  // namespace engine
