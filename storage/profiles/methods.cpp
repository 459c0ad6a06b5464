#include "storage/profiles/methods.h"

#include <algorithm>
#include <tuple>

#include "storage/profiles/profile_loader.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;
using nlohmann::json;

constexpr const char* kUnclassified = "not classified";

// A file as its fields() list sees it.
struct MethodSheet {
  std::string id, name, active, source, check_your_label, moa_class;
  engine::Date checked{};
  engine::Method method = engine::Method::Other;
  engine::Supers supers = engine::Supers::Unknown;
  engine::LabelLimits limits;
  int withdrawal_days = 0;
  std::vector<std::string> cautions;

  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("name", s.name), f("active", s.active), f("source", s.source);
    f("checked", s.checked), f("check_your_label", s.check_your_label), f("method", s.method);
    f("moa_class", s.moa_class), f("supers", s.supers);
    profile_loader::limits_fields(s.limits, f);
    f("withdrawal_days", s.withdrawal_days);
    f("cautions", s.cautions);
  }
};

// IRAC groups are a number and perhaps a letter: "19", "3A".
bool is_class(const std::string& c) {
  const auto digit = [](char x) { return x >= '0' && x <= '9'; };
  std::size_t n = 0;
  while (n < c.size() && digit(c[n])) ++n;
  if (n == 0 || n > 2) return c == kUnclassified;
  return n == c.size() || (n + 1 == c.size() && c[n] >= 'A' && c[n] <= 'Z');
}

engine::MethodRules rules_of(MethodSheet&& s) {
  engine::MethodRules r;
  r.id = s.id;
  r.name = std::move(s.name);
  r.active = std::move(s.active);
  r.method = s.method;
  if (s.moa_class != kUnclassified) r.moa_class = std::move(s.moa_class);
  r.supers = s.supers;
  static_cast<engine::LabelLimits&>(r) = s.limits;
  r.withdrawal_days = s.withdrawal_days;
  r.check_your_label = std::move(s.check_your_label);
  r.cautions = std::move(s.cautions);
  return r;
}

std::string what_is_wrong(const MethodSheet& s) {
  if (!profile_loader::is_id(s.id)) return "id: must be small letters, digits and dashes";
  if (s.name.empty()) return "name: is empty";
  if (s.active.empty()) return "active: is empty";
  if (s.source.empty()) return "source: is empty; name the document";
  if (s.check_your_label.empty()) return "check_your_label: is empty";
  if (!is_class(s.moa_class))
    return "moa_class: must be an IRAC group such as \"3A\", or \"not classified\"";
  return {};
}

}  // namespace

engine::Result<MethodProfile> parse_method(const std::string& text) {
  const json parsed = json::parse(text, nullptr, false);
  if (!parsed.is_object())
    return profile_loader::bad("is no JSON object; look for a missing comma or quote");
  if (const std::string key = profile_loader::unknown_key<MethodSheet>(parsed); !key.empty())
    return profile_loader::bad(key + ": is no field of a method; check its spelling");
  MethodSheet s;
  json_fields::Reader reader(parsed, "");
  MethodSheet::fields(s, reader);
  if (!reader.wrong().empty()) return profile_loader::bad(reader.wrong());
  if (const std::string wrong = what_is_wrong(s); !wrong.empty()) return profile_loader::bad(wrong);
  MethodProfile p{s.id, {}, s.source, s.checked, {}};
  if (const std::string wrong = profile_loader::read_numbers(parsed, p.numbers); !wrong.empty())
    return profile_loader::bad(wrong);
  p.rules = rules_of(std::move(s));
  if (const std::string wrong = engine::what_is_wrong(p.rules); !wrong.empty())
    return profile_loader::bad(wrong);
  return p;
}

engine::Result<MethodShelf> load_methods(const std::vector<std::string>& folders) {
  auto loaded = profile_loader::load<MethodProfile>(folders, parse_method, "method");
  if (!loaded.ok()) return loaded.status();
  MethodShelf shelf{std::move(loaded.value().profiles), std::move(loaded.value().refused)};
  std::sort(shelf.profiles.begin(), shelf.profiles.end(), [](const auto& a, const auto& b) {
    return std::tie(a.rules.method, a.rules.name, a.id) <
           std::tie(b.rules.method, b.rules.name, b.id);
  });
  return shelf;
}

std::vector<engine::MethodRules> rules_of(const MethodShelf& shelf) {
  std::vector<engine::MethodRules> rules;
  for (const MethodProfile& p : shelf.profiles) rules.push_back(p.rules);
  return rules;
}

}  // namespace storage
