#include "engine/season/headline.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/farm/queries.h"
#include "engine/rounds/due.h"
#include "engine/season/brood.h"
#include "engine/season/lessons.h"
#include "engine/walk/come_back.h"
#include "engine/words/words.h"

namespace engine {
namespace {

// Fewer rounds with brood reach too few of the mites (the model's table: three rounds 30 % at the
// field end, one 11 %).
constexpr std::size_t kFewRounds = 3;
constexpr double kLessDose = 0.9;  // of what the label prompts; own choice

struct After {
  double per_100 = 0;
  Threshold threshold;
  Date last{};
  [[nodiscard]] bool below() const { return per_100 < threshold.per_100; }
};

After after_of(const Farm& farm, const CourseVerdict& v) {
  After a;
  std::int64_t mites = 0, bees = 0;
  for (const ColonyVerdict& c : v.colonies) {
    const mites::Wash w = c.after.pooled();
    mites += w.mites, bees += w.bees;
    a.last = std::max(a.last, c.after.last);
  }
  a.per_100 =
      100 * static_cast<double>(mites) / static_cast<double>(std::max<std::int64_t>(1, bees));
  a.threshold = threshold_on(farm.setup.thresholds, a.last, farm.yards.at(v.yard).place);
  return a;
}

CourseResult result_of(const CourseVerdict& v, const After& after) {
  if (v.failed) return CourseResult::Failed;
  if (v.effect.low <= 0) return CourseResult::NoClearChange;
  return after.below() ? CourseResult::Worked : CourseResult::NotEnough;
}

// "84 % fewer mites (40 to 93)"; "45 % more mites (10 to 120)".
std::string change_words(const mites::Efficacy& e) {
  if (e.percent >= 0)
    return fmt::format("{:.0f} % fewer mites ({:.0f} to {:.0f})", e.percent, e.low, e.high);
  return fmt::format("{:.0f} % more mites ({:.0f} to {:.0f})", -e.percent, -e.high, -e.low);
}

std::string count_again_words(Date again, Date today) {
  return again <= today ? "count again" : "count again in a week";
}

std::string line_of(const Headline& h, const CourseVerdict& v, const After& after, Date today) {
  const std::string change = change_words(v.effect);
  switch (h.result) {
    case CourseResult::Worked:
      return change + ". Below your threshold: it worked.";
    case CourseResult::NotEnough:
      return fmt::format(
          "{}, but {:.1f} per 100 bees is still above your threshold of {:.1f}: not enough yet.",
          change, after.per_100, after.threshold.per_100);
    case CourseResult::NoClearChange:
      return fmt::format("No clear change: {}. {}, {}.", count_again_words(*h.count_again, today),
                         change, after.below() ? "below your threshold" : "above your threshold");
    case CourseResult::Failed:
      return fmt::format("It did not work: {}. Most likely: {}", change, h.reasons.front());
  }
  return {};
}

bool has_brood(const Farm& farm, const CourseVerdict& v) {
  return std::any_of(v.colonies.begin(), v.colonies.end(), [&](const ColonyVerdict& c) {
    return brood_on(farm.colonies.at(c.colony).brood, v.rounds.front()) != BroodState::None;
  });
}

// Settings on the course's walks, and those against which something stands.
struct Faults {
  int settings = 0, mishaps = 0, short_times = 0, flying = 0;
};

void add(const Walk& walk, const Stop& stop, Faults& f) {
  f.settings += static_cast<int>(stop.treatments.size());
  f.mishaps += stop.mishaps.empty() || stop.treatments.empty() ? 0 : 1;
  bool brief = false, flying = false;
  for (const ComeBackReason& r : reasons_to_come_back(walk, stop)) {
    brief = brief || r.why == ComeBackWhy::ShortDwell || r.why == ComeBackWhy::ShortSeal;
    flying = flying || r.why == ComeBackWhy::FlyingHeavy;
  }
  f.short_times += brief ? 1 : 0;
  f.flying += flying ? 1 : 0;
}

Faults faults_of(const Farm& farm, const Course& course) {
  Faults f;
  for (const RoundState& r : rounds_of(farm, course))
    if (r.walked) {
      const Walk& walk = farm.walks.at(*r.walked);
      for (const Stop& stop : walk.stops) add(walk, stop, f);
    }
  return f;
}

void add_faults(const Faults& f, std::vector<std::string>& reasons) {
  const auto tell = [&](int n, const char* what) {
    if (n > 0) reasons.push_back(fmt::format("{} of {} settings {}.", n, f.settings, what));
  };
  tell(f.mishaps, "had a mishap noted (dropped, not recovering, a leak)");
  tell(f.short_times, "dwelled or were closed too short");
  tell(f.flying, "were given while many bees flew");
}

void add_schedule(const Farm& farm, const Course& course, const CourseVerdict& v,
                  std::vector<std::string>& reasons) {
  const std::size_t planned = course.rounds.size(), walked = v.rounds.size();
  if (walked < planned)
    reasons.push_back(fmt::format("{} of {} rounds were walked.", walked, planned));
  if (!has_brood(farm, v)) return;
  const bool brief = days_apart(v.rounds.front(), v.rounds.back()) < kShortSpan;
  if (walked < kFewRounds)
    reasons.push_back(fmt::format("{} with brood: most mites were under caps.",
                                  counted(walked, "round", "rounds")));
  else if (brief)
    reasons.emplace_back("The rounds span less than 12 days: some mites stayed under caps.");
}

}  // namespace

std::vector<std::string> likely_reasons(const Farm& farm, const Course& course,
                                        const CourseVerdict& v) {
  std::vector<std::string> reasons;
  if (v.coming_in) reasons.push_back(v.coming_in->line);
  add_schedule(farm, course, v, reasons);
  const double dose = course_dose_g(farm, course), prompted = usual_dose_g(farm);
  if (dose < kLessDose * prompted)
    reasons.push_back(fmt::format("{:.1f} g a brood box were given, {:.1f} is the dose you chose.",
                                  dose, prompted));
  add_faults(faults_of(farm, course), reasons);
  reasons.emplace_back(
      "Check leaks and the seal, the grams in the pan and the heat; then drift and robbing from "
      "other colonies. Resistance comes last: none to oxalic acid is known.");
  return reasons;
}

Headline headline_of(const Farm& farm, const Course& course, const CourseVerdict& v, Date today) {
  const After after = after_of(farm, v);
  Headline h;
  h.result = result_of(v, after);
  if (h.result != CourseResult::Worked) h.reasons = likely_reasons(farm, course, v);
  if (h.result == CourseResult::NoClearChange)
    h.count_again = date_after(after.last, kCountAgainDays);
  if (v.coming_in) h.count_again = v.coming_in->count_again;
  h.line = line_of(h, v, after, today);
  return h;
}

}  // namespace engine
