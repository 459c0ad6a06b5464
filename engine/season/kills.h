// engine/season/kills.h -- what a round kills, learned from the washes around the keeper's courses:
// for the outfit, and for a yard or a vaporizer of its own once it has two courses.
//
// The band that is shown for a dose is the middle 80 % of what is believed after the courses that
// are in. Before any course that is the band between what field trials and what exposed mites show
// (engine/mites/learn_kill.h).
#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/mites/learn_kill.h"

namespace engine {

// A yard or a vaporizer speaks for itself from so many courses on; and the middle of the band is
// the headline, no longer its lower end, from so many.
inline constexpr std::size_t kOwnFrom = 2, kMiddleFrom = 3;

// The share of exposed mites that one round kills.
struct KillBand {
  double low = 0.31, mid = 0.67, high = 0.89;
  std::size_t courses = 0;  // learned from; 0: what field trials and exposed mites show
  std::string source;
  [[nodiscard]] double headline() const { return courses >= kMiddleFrom ? mid : low; }
};
// For so many grams of dihydrate a brood box, before any course.
[[nodiscard]] KillBand kill_band(Mass dihydrate_per_box);
// Grams of dihydrate a brood box of the label chosen in Setup; 1 while none is chosen.
[[nodiscard]] double usual_dose_g(const Farm& farm);
// kill_band of that dose.
[[nodiscard]] KillBand usual_kill(const Farm& farm);

struct KillsLearned {
  mites::LearnedZ z;
  std::size_t courses = 0;
};

// Learning takes about a millisecond for each group of colonies, so a long log is gone through a
// piece at a time, the newest courses first. For one state of the farm.
class KillSurvey {
 public:
  // `today`: washes after it do not count.
  KillSurvey(const Farm& farm, Date today);

  // Looks into so many more courses.
  void go_on(const Farm& farm, std::size_t courses);
  [[nodiscard]] bool whole() const { return courses_.empty(); }

  // Of what was looked into so far; nullopt: nothing, or not enough for an own word.
  [[nodiscard]] std::optional<KillsLearned> of_outfit() const;
  [[nodiscard]] std::optional<KillsLearned> of_yard(YardId yard) const;
  // A course counts for the vaporizer that gave most of its settings.
  [[nodiscard]] std::map<KitId, KillsLearned> by_vaporizer() const;

  // The yard's own band for the dose, else the outfit's, else the usual one.
  [[nodiscard]] KillBand band(YardId yard, double dose_g) const;

 private:
  struct Sum {
    mites::LearnGrid log_likelihood{};
    std::size_t courses = 0;
    void add(const mites::Lesson& lesson);
    [[nodiscard]] KillsLearned learned() const;
  };
  void look_into(const Farm& farm, CourseId id);

  Date today_{};
  std::vector<CourseId> courses_;  // still to be looked into, the newest last
  Sum outfit_;
  std::map<YardId, Sum> yards_;
  std::map<KitId, Sum> vaporizers_;
};

// The band of what was learned, for a dose that teaches_at() allows.
[[nodiscard]] KillBand band_of(const KillsLearned& learned, double dose_g, std::string source);

// The yard's band for the usual dose, from the whole log.
[[nodiscard]] KillBand yard_kill(const Farm& farm, YardId yard, Date today);

}  // namespace engine
