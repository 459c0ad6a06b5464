// ui/screens/walk_view.h -- what the walk screens remember between frames.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/event.h"
#include "ui/touch/entry.h"

namespace ui {

// The pages of opening a walk; Start shows all in short.
enum class OpenPage { Start, Temperature, Wind, Kit, Label };

// What lies over the walk under way.
enum class WalkPanel { None, Map, PassOver, Flying, Mishap, StrikeLast, Dose, DoseKeys, Close };

struct WalkView {
  // Set by other screens: open a walk of this yard, of these colonies only (empty: all).
  std::optional<engine::YardId> yard;
  std::vector<engine::ColonyId> only;
  std::optional<engine::CourseId> course;

  // While the walk is being opened.
  OpenPage page = OpenPage::Start;
  engine::Conditions conditions;
  std::vector<engine::KitId> left_at_home;  // vaporizers and cloths not carried tonight
  NumberEntry number;

  // While it is under way.
  WalkPanel panel = WalkPanel::None;
  bool first_aid = false;                    // lies over everything, panels too
  std::optional<engine::ColonyId> chosen;    // tapped on the map; none: the walk's own order
  std::optional<engine::Mass> dose;          // other than the prompt
  std::optional<engine::ColonyId> dose_for;  // the colony that dose is meant for
  int strike_reason = 0;
  int map_page = 0;
  int list_page = 0;
};

}  // namespace ui
