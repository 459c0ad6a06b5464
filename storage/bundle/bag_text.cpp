#include "storage/bundle/bag_text.h"

#include <algorithm>
#include <charconv>
#include <set>

#include "storage/disk/payload_path.h"

namespace storage {
namespace {

constexpr std::size_t kHashText = 64;  // hexadecimal digits of a SHA-256

// Calls `take(number, line)` for each line; LF, CRLF and CR end one. Stops when `take` says false.
template <class Take>
void each_line(std::string_view text, Take take) {
  for (std::size_t number = 1; !text.empty(); ++number) {
    const std::size_t end = text.find_first_of("\r\n");
    if (!take(number, text.substr(0, end))) return;
    if (end == std::string_view::npos) return;
    const bool pair = text[end] == '\r' && end + 1 < text.size() && text[end + 1] == '\n';
    text.remove_prefix(end + (pair ? 2 : 1));
  }
}

std::string at(const std::string& file, std::size_t line) {
  return file + " line " + std::to_string(line) + ": ";
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

bool has_control(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7f;
  });
}

// One line of a manifest, or why it is none.
std::string read_entry(std::string_view line, BagFile& entry) {
  if (line.size() > kMostLine) return "the line is too long";
  if (line.size() < kHashText + 2 || !from_hex(lower_case(line.substr(0, kHashText)), entry.hash))
    return "no SHA-256 and path: " + shown_path(line);
  std::string_view path = line.substr(kHashText);
  const std::size_t start = path.find_first_not_of(" \t");
  if (start == 0 || start == std::string_view::npos) return "no path: " + shown_path(line);
  path.remove_prefix(start);
  if (const std::string why = why_not_inside(path); !why.empty())
    return "the path " + why + ": " + shown_path(path);
  entry.path = undo_percent(path);
  return {};
}

bool read_number(std::string_view text, std::uint64_t& out) {
  const auto [end, err] = std::from_chars(text.data(), text.data() + text.size(), out);
  return err == std::errc{} && end == text.data() + text.size() && !text.empty();
}

void read_tag(std::size_t number, std::string_view line, Tags& tags, Problems& problems) {
  if (trimmed(line).empty()) return;
  if (line.front() == ' ' || line.front() == '\t') {
    if (tags.empty()) return problems.add(at("bag-info.txt", number) + "continues nothing");
    tags.back().second += " " + std::string(trimmed(line));
    return;
  }
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos || colon == 0)
    return problems.add(at("bag-info.txt", number) + "no label and colon: " + shown_path(line));
  tags.emplace_back(trimmed(line.substr(0, colon)), trimmed(line.substr(colon + 1)));
}

}  // namespace

void Problems::add(std::string line) {
  if (++count_ <= kMostProblems) lines_.push_back(std::move(line));
}

std::string bag_declaration() { return "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"; }

std::string manifest_text(const std::vector<BagFile>& files) {
  std::vector<std::string> lines;
  for (const BagFile& file : files) lines.push_back(hex(file.hash) + "  " + file.path + "\n");
  std::sort(lines.begin(), lines.end(), [](const std::string& a, const std::string& b) {
    return a.compare(kHashText, std::string::npos, b, kHashText, std::string::npos) < 0;
  });
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

std::string oxum(std::uint64_t bytes, std::size_t files) {
  return std::to_string(bytes) + "." + std::to_string(files);
}

std::string info_text(const Tags& tags) {
  std::string text;
  for (const auto& [label, value] : tags) text += label + ": " + value + "\n";
  return text;
}

std::string why_not_tag(std::string_view label, std::string_view value) {
  if (label.empty()) return "has no label";
  if (trimmed(label) != label) return "has a label with a space at its end";
  if (label.find(':') != std::string_view::npos) return "has a colon in its label";
  if (has_control(label) || has_control(value)) return "holds a line end or control character";
  if (trimmed(value) != value) return "has a value with a space at its end";
  if (label.size() + value.size() + 2 > kMostLine) return "is too long";
  return {};
}

std::string why_not_declaration(std::string_view text) {
  if (text.starts_with("\xef\xbb\xbf")) return "begins with a byte order mark";
  std::vector<std::string_view> lines;
  each_line(text, [&](std::size_t, std::string_view line) {
    if (!line.empty()) lines.push_back(line);
    return lines.size() < 3;
  });
  if (lines.size() != 2) return "does not have two lines";
  if (lines[0] != "BagIt-Version: 1.0") return "is not of BagIt-Version: 1.0";
  if (lower_case(lines[1]) != "tag-file-character-encoding: utf-8")
    return "does not say Tag-File-Character-Encoding: UTF-8";
  return {};
}

std::vector<BagFile> parse_manifest(const std::string& file, std::string_view text,
                                    Problems& problems) {
  std::vector<BagFile> entries;
  std::set<std::string> seen;
  each_line(text, [&](std::size_t number, std::string_view line) {
    if (line.empty()) return true;
    if (number > kMostBagFiles) {
      problems.add(file + " has more than " + std::to_string(kMostBagFiles) + " lines");
      return false;
    }
    BagFile entry;
    if (const std::string why = read_entry(line, entry); !why.empty())
      problems.add(at(file, number) + why);
    else if (!seen.insert(entry.path).second)
      problems.add(at(file, number) + "listed twice: " + shown_path(entry.path));
    else
      entries.push_back(std::move(entry));
    return true;
  });
  return entries;
}

Tags parse_info(std::string_view text, Problems& problems) {
  Tags tags;
  each_line(text, [&](std::size_t number, std::string_view line) {
    if (number > kMostBagFiles) {
      problems.add("bag-info.txt has too many lines");
      return false;
    }
    if (line.size() > kMostLine)
      problems.add(at("bag-info.txt", number) + "the line is too long");
    else
      read_tag(number, line, tags, problems);
    return true;
  });
  return tags;
}

std::optional<std::pair<std::uint64_t, std::uint64_t>> parse_oxum(std::string_view text) {
  const std::size_t dot = text.find('.');
  std::pair<std::uint64_t, std::uint64_t> both;
  if (dot == std::string_view::npos || !read_number(text.substr(0, dot), both.first) ||
      !read_number(text.substr(dot + 1), both.second))
    return std::nullopt;
  return both;
}

}  // namespace storage
