#include "engine/mites/cohort.h"

#include "engine/mites/ages.h"

namespace engine::mites {
namespace {

// Mothers and the daughters they bring out, less what falls.
double come_out(const Opened& opened, const Constants& k) {
  return emerging_of(opened, k) * (1 - k.emergence_loss);
}

// Nothing is gone, nothing enters: only the days go by.
constexpr Hazards kNone{};

}  // namespace

Cohort::Cohort(const Constants& constants, const MitePool& mites)
    : constants_(constants), first_(mites), followed_(empty_pool(constants)) {
  first_.on_bees = 0;
  size_ = come_out({sum(mites.in_worker), sum(mites.in_drone)}, constants);
}

void Cohort::round(double away) {
  exposed_ += followed_.on_bees * (1 - away);
  followed_.on_bees *= away;
}

void Cohort::step(const Hazards& hazards) {
  const Opening opening = opening_of(constants_);
  const Opened first = open_cells(first_, opening);
  const Opened later = open_cells(followed_, opening);
  // Daughters born at later openings are not of the cohort.
  const double again =
      (later.worker + later.drone) * constants_.mother_survival * (1 - constants_.emergence_loss);
  expose(followed_, come_out(first, constants_) + again, hazards);
  expose(first_, 0, kNone);
}

std::optional<double> Cohort::exposed() const {
  if (size_ <= 0) return std::nullopt;
  return exposed_ / size_;
}

}  // namespace engine::mites
