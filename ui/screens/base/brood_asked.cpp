// The answers to the question for brood, as notes in the journal.
#include "ui/screens/base/brood_asked.h"

#include <utility>

namespace ui {

std::optional<engine::BroodNoted> brood_note(const BroodAnswer& answer,
                                             std::vector<engine::ColonyId> colonies,
                                             engine::Date on) {
  if (!answer.what || colonies.empty()) return std::nullopt;
  return engine::BroodNoted{std::move(colonies), on, *answer.what, answer.label};
}

}  // namespace ui
