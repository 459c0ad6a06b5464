// storage/text/html_text.h -- text made safe for a page, and how each page begins.
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

// The page up to its title and style: it loads nothing and runs no script, whatever its text says.
inline constexpr std::string_view kPageTop =
    R"(<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="Duskwalk">
<link rel="icon" href="data:,">
)";

}  // namespace storage
