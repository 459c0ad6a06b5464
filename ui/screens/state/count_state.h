#pragma once
#include <optional>

#include "engine/core/id.h"
#include "engine/core/terms.h"
#include "ui/screens/base/typing.h"

namespace ui {

// One count that is being entered.
struct CountDraft {
  engine::CountMethod method = engine::CountMethod::AlcoholWash;
  std::optional<int> mites;
  int bees = 300;  // common practice: half a cup of bees is about 300
  int hours = 24;
  int days_ago = 0;
  bool lead = false;  // the next keys open by themselves
};

enum class CountsPage { Yard, Colonies, Entry, Said, Growth, Sample };
struct CountsView {
  std::optional<engine::YardId> yard;      // none: the list of yards
  std::optional<engine::ColonyId> colony;  // being counted, or just counted
  CountsPage page_of = CountsPage::Yard;
  int page = 0;  // of the list of yards
  int plot_page = 0, advice_page = 0, colony_page = 0, said_page = 0;
  int growth_page = 0, growth_line = 0;
  bool why = false;   // of a yard, upright: the words instead of the dots
  bool each = false;  // without treatment: each colony instead of the yard
  Typing typing;
  CountDraft draft;
};

}  // namespace ui
