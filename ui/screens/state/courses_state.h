#pragma once
#include <optional>
#include <set>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "engine/core/terms.h"

namespace ui {

enum class CoursesPage {
  List,
  Yard,
  Plan,
  Methods,
  Brood,
  BroodAsked,  // of the yards to plan, where the label minds it
  Outlook,
  Verdict,
  Missed,
  Calendar,
  Evening,
  Free
};
struct CoursesView {
  CoursesPage page_of = CoursesPage::List;
  std::optional<engine::YardId> yard;
  std::optional<engine::Date> evening;
  // Pages of: yards, yards to plan, lines beside them, evenings, methods.
  int page = 0, plan_page = 0, line_page = 0, calendar_page = 0, method_page = 0;
  std::set<engine::YardId> wanted;  // to be planned together
  std::size_t option = 0;           // of the outlook
  std::size_t coming_in = 0;        // step of its mites from other colonies
  int rounds = 4;
  int first_in = 0;     // days from today
  bool window = false;  // the broodless time of the one yard: a single round
  bool insist = false;  // on rounds that the label forbids
  engine::LossWhy why = engine::LossWhy::Rain;
  bool why_told = false;  // of a verdict: what stands behind its line
};

}  // namespace ui
