// storage/disk/payload_path.h -- which file names may go into a bundle, and which may be read from
// one.
//
// Both functions return an empty text when the path is good, else the reason, to be put after the
// path in a line ("has a part named .."). Parts are split by "/".
#pragma once
#include <string>
#include <string_view>

namespace storage {

constexpr std::size_t kMostPayloadPath = 180;  // leaves room below the 260 of common computers

// For writing: a relative path of plain ASCII that every FAT volume and common computer takes.
// No part is empty, "." or "..", ends in a dot or space, begins with a space, holds a control
// character or one of "*:<>?\|, or is a reserved device name (CON, PRN, AUX, NUL, COM0-9, LPT0-9,
// also with an extension and in any case). Source of these rules: ECMA-107 for FAT, and the long
// name and device name rules as commonly documented (from memory). "%" is refused too, as
// RFC 8493 would write it %25, which checksum tools do not undo.
[[nodiscard]] std::string why_not_writable(std::string_view path);

// For reading a manifest that a stranger may have made: the path must stay inside the folder, both
// as it stands and with every %XX undone. RFC 8493 section 5.1 (special directory characters).
[[nodiscard]] std::string why_not_inside(std::string_view path);

// Undoes %25, %0A and %0D (any case), the only escapes RFC 8493 section 2.1.3 knows.
[[nodiscard]] std::string undo_percent(std::string_view path);

// A path from outside, short and harmless enough to show in a line.
[[nodiscard]] std::string shown_path(std::string_view path);

// ASCII letters in lower case: FAT does not tell them apart.
[[nodiscard]] std::string lower_case(std::string_view text);

}  // namespace storage
