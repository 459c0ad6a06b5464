// storage/language/system_language.h -- the language that the system asks for.
#pragma once
#include <string>
#include <vector>

#include "storage/disk/paths.h"

namespace storage {

// ISO 639-1 codes, the most wanted first, as the GNU gettext manual orders the variables (section
// "Locale environment variables", from memory): LANGUAGE, a list, before the first of LC_ALL,
// LC_MESSAGES and LANG that is set. LC_ALL=C and its like ask for English whatever LANGUAGE says.
// Here LANGUAGE counts in C.UTF-8 too: a tablet's image has no other locale. Pure.
[[nodiscard]] std::vector<std::string> wanted_languages(const Environment& environment);

}  // namespace storage
