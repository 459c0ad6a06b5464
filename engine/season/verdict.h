// engine/season/verdict.h -- did a course work: from washes before and after it, and from them
// only.
//
// The verdict comes first, as one line that a tired person understands; figures and cautions stand
// behind it. With untreated colonies counted at the same times the Henderson-Tilton formula gives
// an efficacy; without them a fall in the counts is a change and is called that. Limits stand
// beside every figure.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/mites/efficacy.h"
#include "engine/season/counts.h"
#include "engine/season/kills.h"
#include "engine/season/reinfestation.h"

namespace engine {

// A wash belongs to a course when it is this close (days). After: not before the rounds' own effect
// on the wash has passed, best two weeks after the last one. Own choices.
inline constexpr int kBeforeMost = 28;
inline constexpr int kAfterLeast = 5, kAfterMost = 35;

inline constexpr const char* kCheckWhy = "check dose, seal, drift from other colonies, resistance";

struct ColonyVerdict {
  ColonyId colony;
  Spell before, after;
  mites::Efficacy effect;  // efficacy with untreated colonies, else change; percent
  bool failed = false;     // clearly: the best that its counts allow is below the field end
  std::string sentence;
};

enum class CourseResult {
  Worked,         // fewer mites for certain, and below the threshold
  NotEnough,      // fewer for certain, but not below it
  NoClearChange,  // the limits hold both more and fewer
  Failed,         // clearly short of what the weakest trials show
};
constexpr std::array<const char*, 4> enum_names(CourseResult) {
  return {"worked", "not_enough", "no_clear_change", "failed"};
}

struct Headline {
  CourseResult result = CourseResult::NoClearChange;
  std::string line;                  // "84 % fewer mites (40 to 93). Below your threshold: ..."
  std::vector<std::string> reasons;  // why it may not have worked, the likeliest first
  std::optional<Date> count_again;
};

struct CourseVerdict {
  CourseId course;
  YardId yard;
  std::vector<Date> rounds;  // as they were walked
  mites::EfficacyMethod method = mites::EfficacyMethod::Reduction;
  std::size_t untreated = 0;     // colonies that served as controls
  mites::Efficacy effect;        // of all its colonies together
  std::optional<KillBand> kill;  // of this course alone, beside what is believed before any
  bool failed = false;
  Headline headline;
  std::optional<ComingIn> coming_in;
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
  bool failed = false;  // clearly
};
// Of the yard's last course that was counted before and after; nullopt: there is none.
[[nodiscard]] std::optional<CourseOutcome> last_outcome(const Farm& farm, YardId yard, Date today);

// A yard where the last two courses or more in a row failed.
struct FailingYard {
  YardId yard;
  int in_a_row = 0;
  std::string sentence;  // "... check dose, seal, drift, resistance"
};
[[nodiscard]] std::optional<FailingYard> failing_yard(const Farm& farm, YardId yard, Date today);

}  // namespace engine
