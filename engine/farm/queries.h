// engine/farm/queries.h -- questions that screens and commands ask of a farm.
#pragma once
#include <string_view>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/walk/come_back.h"

namespace engine {

// Not lost, by name.
[[nodiscard]] std::vector<const Yard*> yards(const Farm& farm);
// Of one yard, not lost, in the keeper's own order.
[[nodiscard]] std::vector<const Colony*> colonies_of(const Farm& farm, YardId yard);
// The colony was found dead on its last visit and nobody said otherwise since (a later treatment,
// or its come-back settled): it gets no dose and no visit, and waits to be marked lost.
[[nodiscard]] bool is_dead_out(const Farm& farm, const Colony& colony);
// colonies_of() without the dead-outs.
[[nodiscard]] std::vector<const Colony*> colonies_to_treat(const Farm& farm, YardId yard);
// Not retired, by name ("2" before "10").
[[nodiscard]] std::vector<const KitItem*> kit_of(const Farm& farm, KitSort sort);

[[nodiscard]] const Yard* find_yard(const Farm& farm, std::string_view name);
[[nodiscard]] const Walk* walk_under_way(const Farm& farm, DeviceId device);
[[nodiscard]] std::string_view colony_name(const Farm& farm, ColonyId colony);
// What the rules prompt for the colony as it stands; one brood box where it is not known.
[[nodiscard]] Mass prompted_dose(const Farm& farm, const LabelRules& rules, ColonyId colony);
// The walks of one yard, oldest first.
[[nodiscard]] std::vector<const Walk*> walks_of(const Farm& farm, YardId yard);
[[nodiscard]] EntryHandle find_entry(const Farm& farm, EntryRef ref);

// Orders names as people number things: digits compare as numbers.
[[nodiscard]] bool before_by_name(std::string_view a, std::string_view b);

// What the colony got that local day; nullopt: none.
[[nodiscard]] std::optional<VaporGiven> vapor_given_on(const Farm& farm, ColonyId colony, Date day);

struct ComeBack {
  ColonyId colony;
  YardId yard;
  WalkId walk;  // where the reasons arose
  std::vector<ComeBackReason> reasons;
};
// Every colony that still needs a visit, by yard name, then in the keeper's order. A dead-out needs
// none.
[[nodiscard]] std::vector<ComeBack> come_back_list(const Farm& farm);

// The last entry of the device that still counts, for "strike last"; nullptr: there is none.
[[nodiscard]] EntryHandle last_entry(const Farm& farm, DeviceId device);

// As the keeper said; none: nobody did.
[[nodiscard]] std::optional<Temperature> air_expected(const Farm& farm, Date on, HomePart part);

}  // namespace engine
