// storage/text/html_text.h -- text made safe for a page.
#pragma once
#include <string>
#include <string_view>

namespace storage {

// & < > " ' as entities; control characters other than line breaks as U+FFFD. For content and for
// quoted attributes.
[[nodiscard]] std::string html_escaped(std::string_view text);

// Escaped, and kept apart from what stands around it: a name with right-to-left letters or
// direction marks in it cannot turn the rest of its line round.
[[nodiscard]] std::string html_name(std::string_view text);

}  // namespace storage
