// ui/screens/base/go_to.h -- every way from one screen to another: what a tap names, so that no
// screen needs to know the state of another one.
//
// The shell turns a way into view state (shell/go_to.h); the next frame shows the page.
#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/terms.h"

namespace ui {

// Alarms has no name of its own in the bar: its cell is there while something is wrong.
enum class ScreenName { Today, Yards, Walk, Counts, Courses, Kit, Register, Setup, Alarms };

// A screen as it was left, or `afresh`: at its first page. The walk always stays as it was left.
struct ToScreen {
  ScreenName screen = ScreenName::Today;
  bool afresh = false;
};
// The opening of a walk of that yard; of these colonies only where any are named.
struct ToOpening {
  engine::YardId yard;
  std::optional<engine::CourseId> course{};
  std::vector<engine::ColonyId> only{};
};
// The page of a yard, or of one of its colonies.
struct ToYard {
  engine::YardId yard;
  std::optional<engine::ColonyId> colony{};
};
// A yard that is not there yet: its name is asked for.
struct ToNewYard {};
// The counts of a yard; `samples`: what its counts lack is asked for.
struct ToCounts {
  engine::YardId yard;
  bool samples = false;
};
// Planning rounds for that yard.
struct ToPlanning {
  engine::YardId yard;
};
// The label profiles of Setup.
struct ToLabels {};
// One kind of kit; none: the acid.
struct ToKit {
  std::optional<engine::KitSort> sort{};
};
// Who treats, in Setup.
struct ToOperator {};
// The pack list of the kit, for what is due tonight.
struct ToPackList {};
// The register's page that writes the log.
struct ToLogWriting {};
// The colonies that one lot was given to.
struct ToLotColonies {
  engine::LotId lot;
  std::string code;
};
// What other tablets brought, in the register.
struct ToTablets {};

// The whole copies of the store, in Setup.
struct ToBackups {};

using GoTo =
    std::variant<ToScreen, ToOpening, ToYard, ToNewYard, ToCounts, ToPlanning, ToLabels, ToKit,
                 ToOperator, ToPackList, ToLogWriting, ToLotColonies, ToTablets, ToBackups>;

}  // namespace ui
