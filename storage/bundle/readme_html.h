// storage/bundle/readme_html.h -- the page at the top of a bundle: what happened that evening, and
// what each file is. For whoever finds the folder on a stick, with any browser, also a phone's.
#pragma once
#include <string>
#include <vector>

#include "storage/bundle/day_bundle.h"
#include "storage/register/register_files.h"

namespace storage {

// HTML 5 with its style inside, no script, nothing fetched; links to `files` below data/. Shows the
// rows of the last day among them. All text is escaped.
[[nodiscard]] std::string readme_html(const std::vector<engine::RegisterRow>& rows,
                                      const RegisterHead& head, const PayloadFiles& files);

}  // namespace storage
