// storage/text/utf8.h -- the little that reading keepers' text needs to know of UTF-8 (RFC 3629).
#pragma once
#include <string>
#include <string_view>

namespace storage {

// The line (from 1) with the first byte that is not UTF-8; 0 when all is.
[[nodiscard]] int first_line_not_utf8(std::string_view text);

// Without white space, no-break spaces and byte order marks at both ends.
[[nodiscard]] std::string trimmed(std::string_view text);

// On one line: each run of white space and control characters becomes one space.
[[nodiscard]] std::string one_line(std::string_view text);

// For comparing names: one_line, trimmed, small letters (ASCII and Latin-1 letters). Ids are made
// of it (sheet_farm.h): what it gives for a name never changes.
[[nodiscard]] std::string folded(std::string_view text);

}  // namespace storage
