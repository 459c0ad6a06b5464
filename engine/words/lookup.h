// engine/words/lookup.h -- what an entry is about, also when what it names was struck since.
//
// A strike takes things out of the farm, but the register still shows the entries that named them;
// so names and walks are looked up in the farm first and in the log after.
#pragma once
#include <optional>
#include <string>

#include "engine/farm/farm.h"

namespace engine {

// Names of today, else those they were added with, else "unknown yard" and the like.
[[nodiscard]] std::string yard_called(const Farm& farm, YardId yard);
[[nodiscard]] std::string colony_called(const Farm& farm, ColonyId colony);
// With its sort, unless the name says it: "vaporizer 1", "Cloth red".
[[nodiscard]] std::string kit_called(const Farm& farm, KitId item);
// "lot 24-118", or the product when there is no code.
[[nodiscard]] std::string lot_called(const Farm& farm, LotId lot);

// As it stands on the shelf, else as it was received (amounts left out).
[[nodiscard]] std::optional<Lot> lot_of(const Farm& farm, LotId lot);

// The yard that the course was planned for.
[[nodiscard]] std::string course_yard_called(const Farm& farm, const CourseDates& dates);

// The walk as it was opened; nullptr: the log holds no such walk.
[[nodiscard]] std::optional<WalkOpened> opening_of(const Farm& farm, WalkId walk);

// The yard and colony an event is about, where there is one. A colony's yard is that of today.
[[nodiscard]] std::optional<YardId> yard_of(const Body& body, const Farm& farm);
[[nodiscard]] std::optional<ColonyId> colony_of(const Body& body, const Farm& farm);

}  // namespace engine
