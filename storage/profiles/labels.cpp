#include "storage/profiles/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "storage/profiles/profile_loader.h"
#include "storage/text/json_fields.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;
using nlohmann::json;

constexpr engine::Mass kLargestMass{1'000'000};  // 1 kg: a slip of the keyboard, not a label

// A file as its fields() list sees it: names and units as they stand in the file.
struct LabelSheet {
  std::string id, region, name, source, check_your_label;
  engine::Date checked{};
  engine::Method method = engine::Method::Vapor;
  engine::Basis basis = engine::Basis::Dihydrate;
  std::optional<engine::Mass> dihydrate_per_gram_mg;
  std::optional<engine::Mass> per_brood_box_mg;
  std::optional<engine::Mass> most_per_brood_box_mg, most_per_colony_mg;
  engine::Supers supers = engine::Supers::Unknown;
  std::string cartridge;
  int withdrawal_days = 0;
  engine::Seconds dwell_goal_s{}, dwell_least_s{}, seal_goal_s{}, seal_least_s{};
  std::optional<bool> dose_unknown;
  std::optional<int> place;
  engine::LabelLimits limits;
  std::vector<std::string> cautions;

  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("id", s.id), f("region", s.region), f("name", s.name), f("source", s.source);
    f("checked", s.checked), f("check_your_label", s.check_your_label), f("method", s.method);
    f("basis", s.basis), f("dihydrate_per_gram_mg", s.dihydrate_per_gram_mg);
    f("per_brood_box_mg", s.per_brood_box_mg), f("most_per_brood_box_mg", s.most_per_brood_box_mg);
    f("most_per_colony_mg", s.most_per_colony_mg), f("supers", s.supers);
    f("cartridge", s.cartridge), f("withdrawal_days", s.withdrawal_days);
    f("dwell_goal_s", s.dwell_goal_s), f("dwell_least_s", s.dwell_least_s);
    f("seal_goal_s", s.seal_goal_s), f("seal_least_s", s.seal_least_s), f("cautions", s.cautions);
    f("dose_unknown", s.dose_unknown), f("place", s.place);
    profile_loader::limits_fields(s.limits, f);
  }
};

engine::LabelRules rules_of(const LabelSheet& s) {
  engine::LabelRules r;
  r.profile = s.id;
  r.product = s.name;
  r.basis = s.basis;
  r.dihydrate_per_gram = s.dihydrate_per_gram_mg;
  r.per_brood_box = s.per_brood_box_mg.value_or(engine::Mass{});
  r.most_per_brood_box = s.most_per_brood_box_mg;
  r.most_per_colony = s.most_per_colony_mg;
  r.supers = s.supers;
  r.cartridge = s.cartridge;
  r.withdrawal_days = s.withdrawal_days;
  r.dwell_goal = s.dwell_goal_s;
  r.dwell_least = s.dwell_least_s;
  r.seal_goal = s.seal_goal_s;
  r.seal_least = s.seal_least_s;
  r.limits = s.limits;
  return r;
}

std::string what_is_wrong(const LabelSheet& s) {
  if (!profile_loader::is_id(s.id)) return "id: must be small letters, digits and dashes";
  if (s.name.empty()) return "name: is empty";
  if (s.region.empty()) return "region: is empty";
  if (s.source.empty()) return "source: is empty; name the document";
  if (s.check_your_label.empty()) return "check_your_label: is empty";
  if (s.basis == engine::Basis::Product && !s.dihydrate_per_gram_mg)
    return "dihydrate_per_gram_mg: is missing; the grams are of a product";
  if (s.per_brood_box_mg > engine::kMostEntered)
    return "per_brood_box_mg: is above 10 g, the most that is given to a colony";
  if (s.most_per_brood_box_mg > kLargestMass) return "most_per_brood_box_mg: is above 1 kg";
  if (s.most_per_colony_mg > kLargestMass) return "most_per_colony_mg: is above 1 kg";
  engine::LabelRules rules = rules_of(s);
  const bool unknown = s.dose_unknown.value_or(false);
  if (unknown && s.per_brood_box_mg) return "dose_unknown: and per_brood_box_mg is given";
  if (!unknown && !s.per_brood_box_mg) return "per_brood_box_mg: is missing";
  if (unknown) rules.per_brood_box = engine::Mass{1};  // typed by the keeper before it is used
  return engine::what_is_wrong(rules);
}

}  // namespace

engine::Result<LabelProfile> parse_label(const std::string& text) {
  const json parsed = json::parse(text, nullptr, false);
  if (!parsed.is_object())
    return profile_loader::bad("is no JSON object; look for a missing comma or quote");
  if (const std::string key = profile_loader::unknown_key<LabelSheet>(parsed); !key.empty())
    return profile_loader::bad(key + ": is no field of a label profile; check its spelling");
  LabelSheet s;
  json_fields::Reader reader(parsed, "");
  LabelSheet::fields(s, reader);
  if (!reader.wrong().empty()) return profile_loader::bad(reader.wrong());
  if (const std::string wrong = what_is_wrong(s); !wrong.empty()) return profile_loader::bad(wrong);
  LabelProfile p;
  if (const std::string wrong = profile_loader::read_numbers(parsed, p.numbers); !wrong.empty())
    return profile_loader::bad(wrong);
  p.rules = rules_of(s);
  p.id = std::move(s.id);
  p.region = std::move(s.region);
  p.name = std::move(s.name);
  p.source = std::move(s.source);
  p.checked = s.checked;
  p.check_your_label = std::move(s.check_your_label);
  p.method = s.method;
  p.place = s.place.value_or(0);
  p.cautions = std::move(s.cautions);
  return p;
}

engine::Result<LabelShelf> load_labels(const std::vector<std::string>& folders) {
  auto loaded = profile_loader::load<LabelProfile>(folders, parse_label, "label");
  if (!loaded.ok()) return loaded.status();
  LabelShelf shelf{std::move(loaded.value().profiles), std::move(loaded.value().refused)};
  std::sort(shelf.profiles.begin(), shelf.profiles.end(),
            [](const LabelProfile& a, const LabelProfile& b) {
              return std::tie(a.place, a.region, a.name, a.id) <
                     std::tie(b.place, b.region, b.name, b.id);
            });
  return shelf;
}

const LabelProfile* find_label(const LabelShelf& shelf, const std::string& id) {
  for (const LabelProfile& p : shelf.profiles)
    if (p.id == id) return &p;
  return nullptr;
}

}  // namespace storage
