// storage/language/mo_catalogue.h -- translations from the .mo files that msgfmt makes.
//
// Boost.Locale reads the file itself. The gettext of the C library would not do: it shows nothing
// in the locale "C", which the program keeps for its numbers, and in no other unless the system was
// told to generate that locale, which a tablet's image was not.
#pragma once
#include <memory>
#include <string>

#include "engine/core/status.h"
#include "engine/language/catalogue.h"

namespace storage {

// FOLDER/LANGUAGE/LC_MESSAGES/duskwalk.mo, as the GNU system lays translations out. `language` is
// an ISO 639-1 code. NotFound: there is no such file; BadInput: it is damaged or too large.
[[nodiscard]] engine::Result<std::unique_ptr<engine::Catalogue>> read_catalogue(
    const std::string& folder, const std::string& language);

}  // namespace storage
