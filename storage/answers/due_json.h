// storage/answers/due_json.h -- what is due, as the JSON of `duskwalk due --json`.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "engine/agenda/agenda.h"
#include "engine/calendar/propose.h"
#include "engine/rounds/due.h"

namespace storage {

// {"on": DATE, "rounds": [...], "coming": [...], "come_backs": [...], "counts": [...],
// "open_walks":
// [{"yard", "opened"}]}, opened as an RFC 3339 time; a round:
// {"yard", "course", "round", "of", "planned", "days_over"}; a come-back colony: {"yard",
// "colony", "reasons": [{"why", "passed"?, "mishap"?, "length_s"?}]}; a count: {"yard",
// "last" or null, "days_since" or null}. Yards and colonies by name, reasons as the journal
// names them. Also: "post_counts", counts after a course: {"yard", "course", "last_round",
// "planned", "days_over"}; "visits" by day: {"on", "yard", "round": bool, "come_backs": [NAME]};
// "missed": rounds of courses that must move: {"yard", "course", "rounds": [DATE]} as proposed;
// "lost_evenings": {"on", "why"}, of the last 30 days; "samples": counts that lack theirs: {"yard",
// "colony", "on", "mites"}; "dead_outs": {"yard", "colony"}; "lead": what wants doing, the most
// urgent first (engine/agenda; `methods` say when strips come out): {"what", "yard", "line",
// "colonies": [NAME]}.
[[nodiscard]] std::string due_json(const engine::Farm& farm, const engine::Due& due,
                                   engine::Date on,
                                   std::span<const engine::MethodRules> methods = {});

// The last 30 days' lost evenings, newest first.
[[nodiscard]] std::vector<std::pair<engine::Date, engine::LossWhy>> lately_lost(
    const engine::Farm& farm, engine::Date on);

}  // namespace storage
