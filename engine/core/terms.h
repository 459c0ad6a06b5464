// engine/core/terms.h -- the closed lists of words that events are made of.
//
// Names go into the journal: add at the end, never rename (engine/core/names.h).
#pragma once
#include <array>

#include "engine/core/names.h"

namespace engine {

// How strongly bees fly at the entrance. Common practice: vapor reaches only bees that are home.
enum class Flight { None, Some, Heavy };
constexpr std::array<const char*, 3> enum_names(Flight) { return {"none", "some", "heavy"}; }

// Why a colony was left out of a walk.
enum class PassReason {
  BeesFlying,
  DeadOut,
  TooWeak,
  Queenless,
  HoneySupers,
  OutOfReach,
  Aggressive,
  Other
};
constexpr std::array<const char*, 8> enum_names(PassReason) {
  return {"bees_flying",  "dead_out",     "too_weak",   "queenless",
          "honey_supers", "out_of_reach", "aggressive", "other"};
}

enum class MishapKind { Dropped, LeakingSeal, Spill, InhaledVapor, Stung, NotRecovering };
constexpr std::array<const char*, 6> enum_names(MishapKind) {
  return {"dropped", "leaking_seal", "spill", "inhaled_vapor", "stung", "not_recovering"};
}

// What must be confirmed, one by one, before the first vapor of a walk.
enum class Protection { Respirator, EyeProtection, Gloves, RinseWater, NobodyDownwind };
constexpr std::array<const char*, 5> enum_names(Protection) {
  return {"respirator", "eye_protection", "gloves", "rinse_water", "nobody_downwind"};
}

enum class KitSort { Vaporizer, Cloth, Battery, Respirator };
constexpr std::array<const char*, 4> enum_names(KitSort) {
  return {"vaporizer", "cloth", "battery", "respirator"};
}

// Whether the label lets honey supers stay on.
enum class Supers { Forbidden, Allowed, Unknown };
constexpr std::array<const char*, 3> enum_names(Supers) {
  return {"forbidden", "allowed", "unknown"};
}

enum class CountMethod { AlcoholWash, SugarRoll, StickyBoard, Other };
constexpr std::array<const char*, 4> enum_names(CountMethod) {
  return {"alcohol_wash", "sugar_roll", "sticky_board", "other"};
}

enum class Method { Vapor, Dribble, Strip, FormicAcid, Thymol, HopAcids, BroodRemoval, Other };
constexpr std::array<const char*, 8> enum_names(Method) {
  return {"vapor",  "dribble",   "strip",         "formic_acid",
          "thymol", "hop_acids", "brood_removal", "other"};
}

enum class Weekday { Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday };
constexpr std::array<const char*, 7> enum_names(Weekday) {
  return {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
}

// Why nothing could be treated on an evening that was meant for it.
// A walk that ends early has one of them too.
enum class LossWhy { Rain, Wind, TooCold, BeesFlying, NoTime, KitFailed, Other, Dark, CalledAway };
constexpr std::array<const char*, 9> enum_names(LossWhy) {
  return {"rain",       "wind",  "too_cold", "bees_flying", "no_time",
          "kit_failed", "other", "dark",     "called_away"};
}

// Why a vaporizer gave no more vapor before its dwell was over.
enum class HaltWhy { BatteryEmpty, KitFailed, Other };
constexpr std::array<const char*, 3> enum_names(HaltWhy) {
  return {"battery_empty", "kit_failed", "other"};
}

// What kind of colony stands there, as far as its dose or its treatment goes by it.
enum class ColonySort { Hive, Nuc, Swarm, Package };
constexpr std::array<const char*, 4> enum_names(ColonySort) {
  return {"hive", "nuc", "swarm", "package"};
}

// Openings beside the entrance through which vapor escapes: to be closed before it is set.
enum class Leak { UpperEntrance, DrainHole, ScreenedFloor, Cracks };
constexpr std::array<const char*, 4> enum_names(Leak) {
  return {"upper_entrance", "drain_hole", "screened_floor", "cracks"};
}

// What a keeper saw or did that decides whether mites have capped cells to hide in.
enum class BroodFact { QueenCaged, QueenReleased, NoBrood, BroodSeen };
constexpr std::array<const char*, 4> enum_names(BroodFact) {
  return {"queen_caged", "queen_released", "no_brood", "brood_seen"};
}

// Why acid left the shelf without a treatment.
enum class DisposalWhy { Expired, Spilled, Spoiled, NotNeeded, GivenAway, Other };
constexpr std::array<const char*, 6> enum_names(DisposalWhy) {
  return {"expired", "spilled", "spoiled", "not_needed", "given_away", "other"};
}

// Which of a day's two spans in which the bees are home and a keeper can see.
enum class HomePart { Evening, Dawn };
constexpr std::array<const char*, 2> enum_names(HomePart) { return {"evening", "dawn"}; }

// BySun: sun by day, dusk from sunset on, where the place of a yard or of home is known.
enum class Theme { Sun, Dusk, Night, BySun };
constexpr std::array<const char*, 4> enum_names(Theme) {
  return {"sun", "dusk", "night", "by_sun"};
}

}  // namespace engine
