#include "ui/screens/words/colony_words.h"

#include <algorithm>

#include "engine/walk/timers.h"

namespace ui {

std::vector<engine::ComeBackReason> come_back_of(const Look& look, engine::ColonyId colony) {
  const auto at = look.farm.colonies.find(colony);
  if (at == look.farm.colonies.end() || !at->second.last_walk) return {};
  const engine::Walk& walk = look.farm.walks.at(*at->second.last_walk);
  const engine::Stop* stop = engine::find_stop(walk, colony);
  return stop == nullptr ? std::vector<engine::ComeBackReason>{}
                         : engine::reasons_to_come_back(walk, *stop);
}

std::optional<engine::Date> last_treated(const Look& look, engine::ColonyId colony) {
  const auto at = look.farm.colonies.find(colony);
  if (at == look.farm.colonies.end() || !at->second.vapor) return std::nullopt;
  return at->second.vapor->on;
}

Row colony_state(const Look& look, const engine::Colony& c) {
  Row row{.title =
              engine::counted(static_cast<std::size_t>(c.brood_boxes), "brood box", "brood boxes") +
              (c.supers_on ? ", honey supers on" : ", no honey supers")};
  const auto reasons = come_back_of(look, c.id);
  if (reasons.empty()) return row;
  row.tag = "COME BACK";
  row.mark = Mark::Return;
  row.tag_surface = Surface::Warning;
  for (const engine::ComeBackReason& r : reasons)
    if (r.why == engine::ComeBackWhy::LeftCovered)
      row = {.title = "The bees need air: its cloth was left on",
             .tag = "OPEN IT",
             .mark = Mark::Warning,
             .tag_surface = Surface::Alarm};
  return row;
}

std::string come_back_words(const Look& look, engine::ColonyId colony) {
  std::string all;
  for (const engine::ComeBackReason& r : come_back_of(look, colony))
    all += (all.empty() ? "Come back: " : "; ") + engine::words(r);
  return all;
}

}  // namespace ui
