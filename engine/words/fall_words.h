// engine/words/fall_words.h -- what a strike would take along, in one line for people.
#pragma once
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// "14 treatments of 14 Aug, 1 count of 15 Aug and 3 other entries", in the order of the log; the
// day is that on which it was entered. Empty for an empty list.
[[nodiscard]] std::string words_of_fall(const Farm& farm, const std::vector<EntryRef>& fall);

}  // namespace engine
