// ui/screens/state/walk_state.h -- what the walk screens remember between frames.
#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/events/event.h"
#include "engine/guide/foresee.h"
#include "ui/screens/base/tried.h"
#include "ui/touch/entry.h"

namespace ui {

// The pages of opening a walk; Start shows all in short.
enum class OpenPage { Start, Temperature, Wind, Kit, Label, Brood, Flight, Plan, PlanCloths };

// What lies over the walk under way.
enum class WalkPanel {
  None,
  Menu,
  Map,
  PassOver,
  Flying,
  Mishap,
  Plan,       // the rest of the walk as lanes
  MishapMap,  // the map again, to say which colony a mishap is about
  StrikeLast,
  Dose,
  DoseKeys,
  Close,
  StillShut,  // closing while cloths are on
  Cautions
};

// A walk that is being opened; no yard: which one is asked first.
struct Opening {
  std::optional<engine::YardId> yard;
  std::vector<engine::ColonyId> only;  // these colonies; empty: all
  std::optional<engine::CourseId> course;
  OpenPage page = OpenPage::Start;
  engine::Conditions conditions;
  bool flight_said = false;              // nothing is taken for "none" unless somebody looked
  std::optional<engine::SealWish> seal;  // none: whole while the light lasts
  int list_page = 0;
};

// What was planned beside what was done.
struct Comparing {
  bool open = false;
  bool done = false;  // showing what was done
  int page = 0;
};

// The walk under way.
struct UnderWay {
  WalkPanel panel = WalkPanel::None;
  std::optional<engine::ColonyId> chosen;     // tapped on the map; none: the walk's own order
  std::optional<engine::Mass> dose;           // other than the prompt
  std::optional<engine::ColonyId> dose_for;   // the colony that dose is meant for
  NumberEntry number;                         // of the dose, as it is typed
  std::optional<engine::ColonyId> mishap_at;  // said on the mishap panel
  std::optional<std::size_t> noted_since;     // the farm's log when a note was asked for
  std::optional<engine::LossWhy> stop_why;    // why it ends early, once that was said
  std::optional<engine::KitId> battery_kept;  // "not now" was said to changing this one
  std::set<engine::Protection> again;         // ticked once more after a break
  std::optional<engine::Stamp> again_done;    // when all of them were
  bool old_kept = false;                      // a walk that was left open is gone on with
  int strike_reason = 0;
  TriedOnce tried;  // the strike of the last entry
  Comparing compare;
  int map_page = 0;
  int list_page = 0;
};

// The walk that was just closed: its summary stands until "Done".
struct JustClosed {
  engine::WalkId walk;
  Comparing compare;
  int list_page = 0;
};

// Opening ends when a walk is under way, and begins anew when none is.
struct WalkView {
  Opening opening;
  UnderWay under_way;
  std::optional<JustClosed> closed;
  bool first_aid = false;                   // lies over everything, panels too
  std::vector<engine::KitId> left_at_home;  // vaporizers and cloths; for all walks of the evening
};

}  // namespace ui
