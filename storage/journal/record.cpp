#include "storage/journal/record.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <nlohmann/json.hpp>
#include <optional>

namespace storage {
namespace {

using nlohmann::json;

bool is_lower_hex(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); }

bool is_lower_word(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; }

bool is_id_char(char c) {
  return is_lower_word(c) || (c >= 'A' && c <= 'Z') || c == '-' || c == '.';
}

template <class Test>
bool all_of(std::string_view text, Test test) {
  return std::all_of(text.begin(), text.end(), test);
}

// Brackets inside brackets, strings left out; the JSON library recurses once for each.
bool too_deep(std::string_view text) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted && c == '\\') ++i;
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == '{' || c == '[') ++depth;
    if (c == '}' || c == ']') --depth;
    if (depth > kDeepestBody) return true;
  }
  return false;
}

// True only for what is canonical for sure: objects and lists of whole numbers, true, false, null
// and plain ASCII text, keys rising. Nearly every entry is that; the rest takes the long way.
class PlainlyCanonical {
 public:
  explicit PlainlyCanonical(std::string_view text) : text_(text) {}
  bool all() { return peek() == '{' && value(0) && text_.empty(); }

 private:
  [[nodiscard]] char peek() const { return text_.empty() ? '\0' : text_.front(); }
  bool take(char c) {
    if (peek() != c) return false;
    text_.remove_prefix(1);
    return true;
  }
  bool word(std::string_view w) {
    if (!text_.starts_with(w)) return false;
    text_.remove_prefix(w.size());
    return true;
  }
  bool value(int depth) {
    if (depth >= kDeepestBody) return false;
    switch (peek()) {
      case '{':
        return object(depth);
      case '[':
        return list(depth);
      case '"':
        return string().has_value();
      default:
        return word("true") || word("false") || word("null") || number();
    }
  }
  bool object(int depth) {
    take('{');
    if (take('}')) return true;
    std::string_view before;
    for (bool first = true;; first = false) {
      const auto key = string();
      if (!key || (!first && *key <= before) || !take(':') || !value(depth + 1)) return false;
      before = *key;
      if (take('}')) return true;
      if (!take(',')) return false;
    }
  }
  bool list(int depth) {
    take('[');
    if (take(']')) return true;
    while (value(depth + 1)) {
      if (take(']')) return true;
      if (!take(',')) return false;
    }
    return false;
  }
  std::optional<std::string_view> string() {
    if (!take('"')) return std::nullopt;
    std::size_t n = 0;
    while (n < text_.size() && text_[n] >= ' ' && text_[n] < 127 && text_[n] != '"' &&
           text_[n] != '\\')
      ++n;
    if (n == text_.size() || text_[n] != '"') return std::nullopt;
    const std::string_view inside = text_.substr(0, n);
    text_.remove_prefix(n + 1);
    return inside;
  }
  // At most 18 digits: it fits, and reads back as it stands.
  bool number() {
    const bool minus = take('-');
    std::size_t n = 0;
    while (n < text_.size() && text_[n] >= '0' && text_[n] <= '9') ++n;
    const bool plain = n > 0 && n <= 18 && (text_[0] != '0' || (n == 1 && !minus));
    text_.remove_prefix(n);
    return plain && (peek() == ',' || peek() == '}' || peek() == ']');
  }

  std::string_view text_;
};

Status bad(std::string field, std::string why) {
  return Status(Code::BadInput,
                fmt::format("The event cannot be stored: {} {}.", std::move(field), why));
}

Status check_body(const std::string& body) {
  if (body.size() > kLargestBody) return bad("body", "is larger than 1 MiB");
  if (PlainlyCanonical(body).all()) return {};
  if (too_deep(body)) return bad("body", "is nested too deeply");
  const json value = json::parse(body, nullptr, false);
  if (value.is_discarded() || !value.is_object()) return bad("body", "is not a JSON object");
  if (value.dump() != body) {
    return bad("body", "is not in canonical form (sorted keys, no spaces, shortest numbers)");
  }
  return {};
}

std::string before_body(const Record& r) {
  return fmt::format("{{\"at_utc_ms\":{},\"body\":", r.at_utc_ms);
}

std::string after_body(const Record& r) {
  return fmt::format(
      ",\"boot_id\":\"{}\",\"device\":\"{}\",\"kind\":\"{}\",\"seq\":{},\"since_boot_ms\":{},"
      "\"zone_offset_min\":{}}}",
      r.boot_id, r.device, r.kind, r.seq, r.since_boot_ms, r.zone_offset_min);
}

bool take(const json& object, const char* key, std::string& to) {
  const auto it = object.find(key);
  if (it == object.end() || !it->is_string()) return false;
  to = it->get<std::string>();
  return true;
}

bool take(const json& object, const char* key, std::int64_t& to) {
  const auto it = object.find(key);
  if (it == object.end() || !it->is_number_integer()) return false;
  to = it->get<std::int64_t>();
  return true;
}

bool take_fields(const json& line, Record& r) {
  std::int64_t zone = 0;
  const bool all = take(line, "device", r.device) && take(line, "seq", r.seq) &&
                   take(line, "at_utc_ms", r.at_utc_ms) && take(line, "zone_offset_min", zone) &&
                   take(line, "boot_id", r.boot_id) &&
                   take(line, "since_boot_ms", r.since_boot_ms) && take(line, "kind", r.kind);
  if (!all || zone < -1440 || zone > 1440 || !line.contains("body")) return false;
  r.zone_offset_min = static_cast<int>(zone);
  r.body = line["body"].dump();
  return true;
}

}  // namespace

bool is_uuid_text(std::string_view text) {
  if (text.size() != 36) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool dash = i == 8 || i == 13 || i == 18 || i == 23;
    if (dash ? text[i] != '-' : !is_lower_hex(text[i])) return false;
  }
  return true;
}

Status well_formed(const Record& r) {
  if (!is_uuid_text(r.device)) return bad("device", "is not a lower-case UUID");
  if (r.seq < 1) return bad("seq", "is below 1");
  if (r.zone_offset_min < -1440 || r.zone_offset_min > 1440) {
    return bad("zone_offset_min", "is more than a day");
  }
  if (r.boot_id.size() > 64 || !all_of(r.boot_id, is_id_char)) {
    return bad("boot_id", "has characters other than letters, digits and -_.");
  }
  if (r.kind.empty() || r.kind.size() > 64 || !all_of(r.kind, is_lower_word)) {
    return bad("kind", "is not a lower-case word");
  }
  return check_body(r.body);
}

std::string canonical(const Record& r) { return before_body(r) + r.body + after_body(r); }

namespace {

// The fields of a line that looks as canonical() writes it; whether it is one is asked after.
bool cut_fields(std::string_view text, Record& r) {
  const auto skip = [&](std::string_view what) {
    const bool there = text.starts_with(what);
    if (there) text.remove_prefix(what.size());
    return there;
  };
  const auto number = [&](std::int64_t& to) {
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), to);
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return error == std::errc{};
  };
  const auto word = [&](std::string& to) {
    const std::size_t n = std::min(text.find('"'), text.size());
    to = text.substr(0, n);
    text.remove_prefix(n);
    return n <= 64;
  };
  if (!skip("{\"at_utc_ms\":") || !number(r.at_utc_ms) || !skip(",\"body\":")) return false;
  const std::size_t body = text.rfind(",\"boot_id\":\"");
  if (body == text.npos) return false;
  r.body = text.substr(0, body);
  text.remove_prefix(body);
  std::int64_t zone = 0;
  const bool all = skip(",\"boot_id\":\"") && word(r.boot_id) && skip("\",\"device\":\"") &&
                   word(r.device) && skip("\",\"kind\":\"") && word(r.kind) &&
                   skip("\",\"seq\":") && number(r.seq) && skip(",\"since_boot_ms\":") &&
                   number(r.since_boot_ms) && skip(",\"zone_offset_min\":") && number(zone);
  if (!all || zone < -1440 || zone > 1440) return false;
  r.zone_offset_min = static_cast<int>(zone);
  return true;
}

}  // namespace

Result<Record> parse_canonical(std::string_view text) {
  if (Record quick; text.size() <= kLargestBody + 1024 && cut_fields(text, quick) &&
                    PlainlyCanonical(quick.body).all() && well_formed(quick).ok() &&
                    canonical(quick) == text)
    return quick;
  if (text.size() > kLargestBody + 1024 || too_deep(text)) return bad("line", "is too large");
  const json line = json::parse(text, nullptr, false);
  Record r;
  if (line.is_discarded() || !line.is_object() || !take_fields(line, r)) {
    return bad("line", "is not an event");
  }
  const Status formed = well_formed(r);
  if (!formed.ok()) return formed;
  if (canonical(r) != text) return bad("line", "is not in canonical form");
  return r;
}

bool take_body(std::string_view text, Record& record) {
  const std::string before = before_body(record);
  const std::string after = after_body(record);
  if (text.size() < before.size() + after.size()) return false;
  if (!text.starts_with(before) || !text.ends_with(after)) return false;
  text.remove_prefix(before.size());
  text.remove_suffix(after.size());
  record.body = text;
  return true;
}

Hash seal_hash(const Hash& prev, std::string_view canonical_bytes) {
  Sha256 sum;
  sum.add({reinterpret_cast<const char*>(prev.data()), prev.size()});
  sum.add(canonical_bytes);
  return sum.finish();
}

Sealed seal(Record record, const Hash& prev) {
  const Hash hash = seal_hash(prev, canonical(record));
  return {std::move(record), prev, hash};
}

bool seal_holds(const Sealed& s) { return s.hash == seal_hash(s.prev, canonical(s.record)); }

}  // namespace storage
