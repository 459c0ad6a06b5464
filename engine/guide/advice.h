// engine/guide/advice.h -- what to do now, for a keeper in the middle of a walk.
//
// The advice follows the plan (engine/guide/guide.h), the walk's own order where there is none, or
// the colony that was tapped. It never commands; every step it does not advise stays possible.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "engine/walk/timers.h"

namespace engine {

enum class Do {
  ConfirmProtection,  // the gate before the first vapor
  Set,                // load the dose and set the vaporizer in the entrance
  Cover,              // the dwell is over: lift, close the entrance
  WaitForDwell,       // the same step, not yet due
  Uncover,            // the seal is over: take the cloth away
  WaitForSeal,        // the same step, not yet due
  SetAgain,           // the chosen colony is done or passed over
  Resume,             // the walk is paused
  Finished,           // nothing is left
  ChangeBattery,      // before the next setting: the charge may not last through it
  GoOn,               // vapor stopped before its dwell was over: give it vapor again
};
constexpr std::array<const char*, 11> enum_names(Do) {
  return {"confirm_protection", "set",    "cover",    "wait_for_dwell", "uncover", "wait_for_seal",
          "set_again",          "resume", "finished", "change_battery", "go_on"};
}

struct Advice {
  Do what = Do::Finished;
  ColonyId colony;
  std::optional<KitId> vaporizer;    // Set, SetAgain, ChangeBattery, GoOn: which one
  std::optional<KitId> battery;      // ChangeBattery, GoOn: the charged one
  std::optional<KitId> cloth;        // Cover, WaitForDwell: which one
  std::optional<Timer> cloth_from;   // ... and where it is taken from
  std::optional<Timer> dwell;        // ... and the vapor that is ended with it
  std::optional<Timer> timer;        // the dwell or seal the step waits for
  Ms hold{};                         // Set: before that, it would stand there waiting for a cloth
  bool too_short = false;            // done now, the dwell or seal would be short
  Refusal obstacle = Refusal::None;  // the chosen step is impossible, and why
};

// `plan`: what is still to do, first things first. A cloth that goes straight from one colony to
// the next is one step: its covering there. `hold`: how long its first setting may wait.
[[nodiscard]] Advice what_now(const Walk& walk, const Stamp& now,
                              std::optional<ColonyId> chosen = std::nullopt,
                              std::span<const PlannedVisit> plan = {}, Ms hold = {});

// The steps after that one, if each is done when it is due: at most `count`.
[[nodiscard]] std::vector<Advice> steps_after(const Walk& walk, const Stamp& now, std::size_t count,
                                              std::optional<ColonyId> chosen = std::nullopt,
                                              std::span<const PlannedVisit> plan = {});

// The event that carries the advice out; nullopt for steps that need none (or a choice first).
[[nodiscard]] std::optional<Body> carry_out(const Walk& walk, const Advice& advice, Mass dose,
                                            int brood_boxes, bool supers_on,
                                            std::optional<KitId> battery, std::optional<LotId> lot);

}  // namespace engine
