#include "storage/disk/payload_path.h"

#include <vector>

namespace storage {
namespace {

std::vector<std::string_view> parts_of(std::string_view path) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t slash = path.find('/');
    parts.push_back(path.substr(0, slash));
    if (slash == std::string_view::npos) return parts;
    path.remove_prefix(slash + 1);
  }
}

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

bool is_reserved(std::string_view part) {
  const std::string stem = lower_case(part.substr(0, part.find('.')));
  if (stem == "con" || stem == "prn" || stem == "aux" || stem == "nul") return true;
  const bool numbered = stem.size() == 4 && stem[3] >= '0' && stem[3] <= '9';
  return numbered && (stem.starts_with("com") || stem.starts_with("lpt"));
}

std::string why_not_part(std::string_view part) {
  if (part.empty()) return "has an empty part (it begins or ends with / or holds //)";
  if (part == "." || part == "..") return "has a part named " + std::string(part);
  if (part.back() == '.' || part.back() == ' ') return "has a part ending in a dot or a space";
  if (part.front() == ' ') return "has a part beginning with a space";
  if (is_reserved(part)) return "uses a name that computers keep for devices";
  for (const char c : part) {
    if (is_control(c)) return "holds a control character";
    if (static_cast<unsigned char>(c) > 0x7e) return "holds a letter outside ASCII";
    if (std::string_view("\"*:<>?\\|%").find(c) != std::string_view::npos)
      return std::string("holds the character ") + c;
  }
  return {};
}

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// Undoes the escapes whose byte `wanted` accepts.
template <class Wanted>
std::string undo(std::string_view path, Wanted wanted) {
  std::string out;
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (path[i] == '%' && i + 2 < path.size()) {
      const int high = digit(path[i + 1]), low = digit(path[i + 2]);
      if (high >= 0 && low >= 0 && wanted(16 * high + low)) {
        out += static_cast<char>(16 * high + low);
        i += 2;
        continue;
      }
    }
    out += path[i];
  }
  return out;
}

std::string why_not_inside_as_is(std::string_view path) {
  if (path.empty()) return "is empty";
  if (path.front() == '/') return "is absolute";
  if (path.front() == '~') return "begins with ~";
  if (path.size() > 1 && path[1] == ':') return "names a drive";
  for (const char c : path) {
    if (is_control(c)) return "holds a control character";
    if (c == '\\') return "holds a backslash";
  }
  for (const std::string_view part : parts_of(path)) {
    if (part.empty()) return "has an empty part";
    if (part == "." || part == "..") return "has a part named " + std::string(part);
  }
  return {};
}

}  // namespace

std::string why_not_writable(std::string_view path) {
  if (path.empty()) return "is empty";
  if (path.size() > kMostPayloadPath)
    return "is longer than " + std::to_string(kMostPayloadPath) + " characters";
  for (const std::string_view part : parts_of(path))
    if (std::string why = why_not_part(part); !why.empty()) return why;
  return {};
}

std::string why_not_inside(std::string_view path) {
  constexpr int kMostRounds = 4;  // so that %252e hides nothing, and a long row costs little
  std::string text(path);
  for (int round = 0; round < kMostRounds; ++round) {
    if (std::string why = why_not_inside_as_is(text); !why.empty()) return why;
    std::string next = undo(text, [](int) { return true; });
    if (next == text) return {};
    text = std::move(next);
  }
  return "is escaped over and over";
}

std::string undo_percent(std::string_view path) {
  return undo(path, [](int byte) { return byte == '%' || byte == '\n' || byte == '\r'; });
}

std::string shown_path(std::string_view path) {
  constexpr std::size_t kMost = 80;
  std::string out(path.substr(0, kMost));
  for (char& c : out)
    if (is_control(c) || static_cast<unsigned char>(c) > 0x7e) c = '?';
  return path.size() > kMost ? out + "..." : out;
}

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

}  // namespace storage
