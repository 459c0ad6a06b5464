// engine/mites/cohort.h -- the mites that were under caps at the first round, followed by tags.
//
// They ask what a course reaches at all: how many of them were ever on a bee at home during a
// round.
#pragma once
#include <optional>

#include "engine/mites/day_step.h"

namespace engine::mites {

class Cohort {
 public:
  // On the morning of the first round.
  Cohort(const Constants& constants, const MitePool& mites);

  // A round with this share of the mites away: who is at home has been exposed, and is no longer
  // followed.
  void round(double away);
  void step(const Hazards& hazards);

  [[nodiscard]] double size() const { return size_; }
  [[nodiscard]] std::optional<double> exposed() const;

 private:
  Constants constants_;
  MitePool first_;     // still under the caps of the start
  MitePool followed_;  // came out since
  double size_ = 0;
  double exposed_ = 0;
};

}  // namespace engine::mites
