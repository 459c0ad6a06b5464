// ui/screens/walk/plan/walk_words.h -- what a step of the walk is called, what it is made of, and
// why a tap on it needs to be held. Pure; masses and temperatures in the setup's units.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "engine/guide/advice.h"
#include "engine/learn/battery.h"
#include "engine/learn/dwell.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/walk_state.h"

namespace ui {

// What is still to do by the plan; empty where there is none.
[[nodiscard]] std::span<const engine::PlannedVisit> planned(const Look& look,
                                                            const engine::Walk& walk);

// What to do now: by the plan, or for the colony that was tapped.
[[nodiscard]] engine::Advice advice_now(const Look& look, const engine::Walk& walk,
                                        std::optional<engine::ColonyId> chosen = std::nullopt);

// Of the dwell under way in that colony.
[[nodiscard]] engine::DwellForecast dwell_forecast(const Look& look, const engine::Walk& walk,
                                                   engine::ColonyId colony);

// The step that the action button stands for, with everything it would write.
struct Step {
  engine::Advice advice;
  engine::BatteryAdvice battery;       // ChangeBattery
  engine::Mass dose;                   // Set, SetAgain
  int brood_boxes = 1;                 // Set, SetAgain
  bool supers_on = false;              // Set, SetAgain
  std::optional<engine::Body> body;    // none: nothing to do, or impossible
  std::optional<engine::Body> before;  // written with it: the charged battery is in
  engine::Refusal refusal = engine::Refusal::None;
  std::string careful;  // not empty: why the button must be held
  std::string trouble;  // something else to look at now; the button stays a tap
};
[[nodiscard]] Step step_now(const Look& look, const engine::Walk& walk, const UnderWay& view);

// The dose for a colony: the keeper's own if it was meant for this one, else the prompt.
[[nodiscard]] engine::Mass dose_for(const Look& look, const engine::Walk& walk,
                                    const UnderWay& view, engine::ColonyId colony);

// Bees were seen flying at this very colony, and it was not set yet.
[[nodiscard]] bool noted_flying(const engine::Walk& walk, engine::ColonyId colony);

// "B3: 2 g, set in the entrance"
[[nodiscard]] std::string sentence(const Look& look, const engine::Walk& walk, const Step& step);
// "dihydrate (1.43 g anhydrous), vaporizer 1"; "cloth 2, from A1, closed 8:40"
[[nodiscard]] std::string under_line(const Look& look, const engine::Walk& walk, const Step& step);
// "B3 is set": what tapping the action button says.
[[nodiscard]] std::string action_label(const Look& look, const Step& step);
// "tap when it stands in the entrance"
[[nodiscard]] std::string action_line(const Step& step);
// "Cover B3, cloth from A1", for the list of what comes next; brief: without the cloth.
[[nodiscard]] std::string short_step(const Look& look, const engine::Walk& walk,
                                     const engine::Advice& advice, bool brief = false);

// "0:45" to go, rounded up to whole seconds so that 0:00 means now.
[[nodiscard]] std::string to_go(engine::Ms left);
[[nodiscard]] std::string shown(const Look& look, engine::Mass m);
[[nodiscard]] std::string called(const Look& look, engine::ColonyId colony);
// "cloth 2", its sort in the language of the keeper.
[[nodiscard]] std::string kit_shown(const Look& look, engine::KitId item);

// The colony a trouble button is about: the chosen one, else that of the step, else the next to do.
[[nodiscard]] std::optional<engine::ColonyId> subject(const Look& look, const engine::Walk& walk,
                                                      const UnderWay& view);
// The colony that gets the next dose: chosen or of the step if that is a setting, else next to do.
[[nodiscard]] std::optional<engine::ColonyId> next_to_set(const Look& look,
                                                          const engine::Walk& walk,
                                                          const UnderWay& view);

// Of them the vapor was in, or they were skipped: what the keeper has behind him.
[[nodiscard]] std::size_t had_their_turn(const engine::Walk& walk);

}  // namespace ui
