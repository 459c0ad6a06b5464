// engine/kit/packing_words.h -- the sentences of a pack list. Internal to engine/kit.
#pragma once
#include "engine/kit/packing_list.h"

namespace engine {

[[nodiscard]] std::vector<std::string> missing_words(const Farm& farm, const PackList& list);
[[nodiscard]] std::string headline_words(const Farm& farm, const PackList& list);

}  // namespace engine
