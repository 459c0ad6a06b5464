// storage/register/tags_pdf.h -- hive tags to cut out: a QR code, the colony's name and its yard.
//
// Twelve on a sheet that lies inside A4 and Letter (storage/register/pdf_paper.h). The code holds
// engine::tag_of, with the error correction of level Q, so that a quarter of it may be scratched
// (ISO/IEC 18004), and the four light modules around it that the standard asks for.
#pragma once
#include <optional>
#include <string>

#include "engine/farm/farm.h"

namespace storage {

// Of one yard, or of all; yards by name, colonies in the keeper's order. Empty: there are none, or
// the document could not be made.
[[nodiscard]] std::string tags_pdf(const engine::Farm& farm, std::optional<engine::YardId> yard,
                                   const engine::Stamp& as_of);

}  // namespace storage
