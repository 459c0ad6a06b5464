// engine/season/counts.h -- what the washes of a colony and of a yard decide, in words.
//
// A rate never stands without its limits, and the answer is one of three: treat, watch, or not
// decided yet, with what would decide. Only counts decide; no plan and no model does.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/mites/counting.h"
#include "engine/mites/yard_counts.h"
#include "engine/rules/threshold.h"

namespace engine {

// Washes of one colony this close together, with no treatment between, are one count. Own choice.
inline constexpr int kSpellDays = 7;
// After two washes of a colony the point estimate decides. Own choice.
inline constexpr int kWashesAllowed = 2;
// Colonies counted within so many days make one count of the yard. Own choice.
inline constexpr int kYardSpellDays = 14;

// The washes and rolls (those with bees counted) that make the colony's last count by `on`.
struct Spell {
  ColonyId colony;
  Date first{}, last{};
  std::vector<mites::Wash> washes;  // oldest first
  [[nodiscard]] mites::Wash pooled() const { return mites::pooled(washes); }
};
[[nodiscard]] std::optional<Spell> last_spell(const Farm& farm, ColonyId colony, Date on);
// All spells of the colony by `on`, oldest first.
[[nodiscard]] std::vector<Spell> spells(const Farm& farm, ColonyId colony, Date on);

struct ColonyCount {
  Spell spell;
  mites::WashEstimate estimate;
  Threshold threshold;
  mites::Decision decision = mites::Decision::Recount;
  bool by_point_estimate = false;       // the allowed washes did not decide
  std::optional<int> more_washes;       // of as many bees, that would decide if the rate holds
  std::string sentence;                 // the decision and its numbers
  std::vector<std::string> cautions{};  // why the count may mislead
};
// nullopt: never washed.
[[nodiscard]] std::optional<ColonyCount> colony_count(const Farm& farm, ColonyId colony, Date on);

struct YardCount {
  YardId yard;
  std::vector<ColonyCount> colonies;  // counted in the yard's last spell, in the keeper's order
  std::size_t in_yard = 0;
  mites::YardEstimate estimate;
  Threshold threshold;
  mites::Decision decision = mites::Decision::Recount;
  bool by_point_estimate = false;  // eight colonies or all are counted, and more would not decide
  ColonyId worst;
  std::string sentence;             // the decision for the yard and its numbers
  std::vector<std::string> advice;  // how many colonies and bees still to decide; the worst colony
};
[[nodiscard]] std::optional<YardCount> yard_count(const Farm& farm, YardId yard, Date on);

// How much sooner than others a yard should begin: its mites over its threshold, 0.5 to 5; 1 for a
// yard that was never counted.
[[nodiscard]] double urgency_of(const std::optional<YardCount>& count);

// The line under every automatic threshold: "Threshold 3.0 per 100 (late summer ...): ...".
[[nodiscard]] std::string words(const Threshold& t);
// "4.7 per 100 bees (95 % limits 2.6 to 7.7)".
[[nodiscard]] std::string words(const mites::WashEstimate& e);
[[nodiscard]] const char* words(mites::Decision d);  // "Treat", "Watch", "Not decided"

}  // namespace engine
