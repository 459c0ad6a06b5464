// A cloth that an earlier walk left lying: the bees behind it need air. Offered before the next
// walk of that yard is opened; the taking off goes into the walk that laid it.
#include "ui/screens/walk/open/walk_left_on.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/language/tr.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
namespace {

struct LeftOn {
  engine::WalkId walk;
  engine::ColonyId colony;
  engine::Stamp since;
};

// Of this yard, the one that lies longest first.
std::vector<LeftOn> left_covered(const Look& look, engine::YardId yard) {
  std::vector<LeftOn> list;
  for (const engine::ComeBack& c : engine::come_back_list(look.farm)) {
    const bool left = std::any_of(c.reasons.begin(), c.reasons.end(), [](const auto& r) {
      return r.why == engine::ComeBackWhy::LeftCovered;
    });
    if (c.yard != yard || !left) continue;
    const engine::Stop* stop = engine::find_stop(look.farm.walks.at(c.walk), c.colony);
    list.push_back({c.walk, c.colony, *stop->treatments.back().lifted_at});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const LeftOn& a, const LeftOn& b) { return a.since.at < b.since.at; });
  return list;
}

std::string since_words(const Look& look, const engine::Stamp& since) {
  const engine::Date day = engine::local_date(since);
  const std::string clock = engine::clock_time(since);
  return day == look.today() ? clock : fmt::format("{}, {}", engine::iso_date(day), clock);
}

}  // namespace

Ask cloth_left_on(Touch& t, Rect& room, const Look& look, engine::YardId yard) {
  const std::vector<LeftOn> list = left_covered(look, yard);
  if (list.empty()) return {};
  const LeftOn& first = list.front();
  std::string second = tr("tap when it is off");
  if (list.size() > 1) second += tr("; {} more after this", list.size() - 1);
  const std::string label = tr("{} is still covered since {}: take the cloth off",
                               called(look, first.colony), since_words(look, first.since));
  const Rect rect = cut_top(room, t.least_h() * 1.3F, t.gap());
  const engine::ColonyUncovered off{first.walk, first.colony};
  const bool may = why_not(look, off) == engine::Refusal::None;
  if (!button(t, rect, label,
              {.enabled = may,
               .surface = Surface::Warning,
               .mark = Mark::Cloth,
               .second = second,
               .id = "still covered"}))
    return {};
  return engine::Body{off};
}

}  // namespace ui
