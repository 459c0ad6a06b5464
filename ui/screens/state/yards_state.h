#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/events/events_season.h"
#include "engine/register/timeline.h"
#include "ui/screens/base/form_state.h"
#include "ui/screens/base/typing.h"
#include "ui/screens/state/count_state.h"

namespace ui {

// What is open over the list, the page of a yard, or the page of a colony.
enum class YardsPage {
  None,
  AddYard,
  YardMore,
  Driving,
  Gate,
  Card,
  Rounds,
  PlanRounds,
  ColonyForm,  // a new one, or a change
  Count,
  Treatment,
  Move,
  Note,
  Settle,
  Lost,
  Kind,
};

struct ColonyDraft {
  std::optional<engine::ColonyId> changes;  // none: a new colony
  std::string name;
  int brood_boxes = 1;
  bool supers_on = false;
  bool placed = false;
  int east_m = 0, north_m = 0;
};

struct RoundsDraft {
  int first_in = 0;  // days from today
  int number = 3;
  int every = 5;  // days
};

struct TreatmentDraft {
  bool begun = false;  // colony and day are set
  engine::OtherTreatmentGiven given;
  FormView form;
};

// The time line shown last: reading the whole log takes longer than a frame.
struct LifeSeen {
  std::size_t entries = 0;  // that the book had read
  engine::ColonyId colony;
  std::vector<engine::LifeItem> items;
};

struct YardsView {
  std::optional<engine::YardId> yard;      // the one whose page is open
  std::optional<engine::ColonyId> colony;  // the one whose page is open
  int page = 0;                            // of the list of yards
  int colony_page = 0;                     // of the yard's colonies
  int fact_page = 0;
  int panel_page = 0;
  bool map = false;
  YardsPage page_of = YardsPage::None;
  Typing typing;
  std::optional<engine::Spot> gate;  // as it is typed
  ColonyDraft draft;
  RoundsDraft rounds;
  CountDraft count;
  TreatmentDraft treatment;
  std::optional<LifeSeen> life;
  std::vector<std::string> said;  // phrases that are on
  std::string written;            // words of one's own beside the phrases
};

}  // namespace ui
