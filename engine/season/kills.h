// engine/season/kills.h -- what the rounds of a yard, or of a vaporizer, kill: the median of the
// kills that each colony's washes before and after a course teach.
#pragma once
#include <map>
#include <optional>
#include <vector>

#include "engine/season/verdict.h"

namespace engine {

struct KillsLearned {
  double median = 0, low = 0, high = 0;  // low and high: the middle half of the colonies
  std::size_t colonies = 0;
};

// Fitting the model to each colony of ten years takes a minute: it goes on a piece at a time, the
// newest courses first. For one state of the farm.
class KillSurvey {
 public:
  // `today`: washes after it do not count.
  KillSurvey(const Farm& farm, Date today);

  // Looks into so many more colonies, each some tenths of a millisecond, and courses, which are
  // less.
  void go_on(const Farm& farm, std::size_t steps);
  [[nodiscard]] bool whole() const { return courses_.empty() && colonies_.empty(); }

  // Of what was looked into so far; nullopt: nothing was learned.
  [[nodiscard]] std::optional<KillsLearned> of_yard(YardId yard) const;
  // A colony counts for the vaporizer that gave most of its settings in the course.
  [[nodiscard]] std::map<KitId, KillsLearned> by_vaporizer() const;

 private:
  struct Waiting {
    YardId yard;
    std::vector<Date> rounds;
    ColonyId colony;
    Spell before, after;
  };
  void look_into_course(const Farm& farm);
  void look_into_colony(const Farm& farm);

  Date today_{};
  std::vector<CourseId> courses_;                // still to be looked into, the newest last
  std::vector<Waiting> colonies_;                // likewise
  std::map<YardId, std::vector<double>> yards_;  // rising
  std::map<KitId, std::vector<double>> vaporizers_;
};

}  // namespace engine
