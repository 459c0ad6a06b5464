// storage/register/pdf_metadata.h -- what Cairo 1.16 does not write into a PDF: its
// language, and its metadata as XMP (ISO 16684-1). Private to storage.
#pragma once
#include <string>

#include "storage/register/pdf_paper.h"

namespace storage {

// `pdf` with a new catalog behind it (ISO 32000-1, 7.5.6, "Incremental Updates"); as it is when it
// is not of the form that Cairo writes.
[[nodiscard]] std::string with_metadata(std::string pdf, const PaperInfo& info);

}  // namespace storage
