// storage/due_json.h -- what is due, as the JSON of `duskwalk due --json`.
#pragma once
#include <string>

#include "engine/course/due.h"

namespace storage {

// {"on": DATE, "rounds": [...], "coming": [...], "come_backs": [...], "counts": [...],
// "open_walks":
// [{"yard", "opened"}]}, opened as an RFC 3339 time; a round:
// {"yard", "course", "round", "of", "planned", "days_over"}; a come-back colony: {"yard",
// "colony", "reasons": [{"why", "passed"?, "mishap"?, "length_s"?}]}; a count: {"yard",
// "last" or null, "days_since" or null}. Yards and colonies by name, reasons as the journal
// names them.
[[nodiscard]] std::string due_json(const engine::Farm& farm, const engine::Due& due,
                                   engine::Date on);

}  // namespace storage
