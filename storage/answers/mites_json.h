// storage/answers/mites_json.h -- a question to the mite model or about counts as JSON, and the
// answer.
//
// One object; every part is optional, but a simulation needs `colony`, `laying`, `mites` and
// `days`. The parts are those of engine/mites: params, colony, laying, mites, days, immigration,
// phoretic_mortality, treatment, schedules with evaluate_day, search, fit_kill, threshold_per_100,
// and a list of `sampling` questions. Unknown keys are refused by name.
#pragma once
#include <string>
#include <string_view>

#include "engine/core/status.h"

namespace storage {

inline constexpr int kMostModelDays = 3660;

// The answer as one JSON object with every digit of a double; BadInput with the field that is
// wrong. What is not a number (a wash without bees) is null.
[[nodiscard]] engine::Result<std::string> answer_mites(std::string_view text);

}  // namespace storage
