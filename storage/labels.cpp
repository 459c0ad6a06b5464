#include "storage/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <tuple>

#include "storage/json_fields.h"

namespace storage {
namespace {

namespace fs = std::filesystem;
using engine::Code;
using engine::Status;
using nlohmann::json;

constexpr std::uintmax_t kLargestFile = 256 * 1024;
constexpr engine::Mass kLargestMass{1'000'000};  // 1 kg: a slip of the keyboard, not a label

// A file as its fields() list sees it: names and units as they stand in the file.
struct Sheet {
  std::string id, region, name, source, check_your_label;
  engine::Date checked{};
  engine::Method method = engine::Method::Vapor;
  engine::Basis basis = engine::Basis::Dihydrate;
  std::optional<engine::Mass> dihydrate_per_gram_mg;
  engine::Mass per_brood_box_mg;
  std::optional<engine::Mass> most_per_brood_box_mg, most_per_colony_mg;
  engine::Supers supers = engine::Supers::Unknown;
  std::string cartridge;
  int withdrawal_days = 0;
  engine::Seconds dwell_goal_s{}, dwell_least_s{}, seal_goal_s{}, seal_least_s{};
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
  }
};

struct Names {
  std::vector<std::string> list;
  template <class T>
  void operator()(const char* key, const T&) {
    list.emplace_back(key);
  }
};

Status bad(const std::string& what) { return {Code::BadInput, what}; }

// A misspelt optional field would silently loosen a label: every key must be one we know.
std::string unknown_key(const json& from) {
  Names names;
  names.list = {"numbers"};
  const Sheet sheet;
  Sheet::fields(sheet, names);
  for (const auto& [key, value] : from.items())
    if (std::find(names.list.begin(), names.list.end(), key) == names.list.end()) return key;
  return {};
}

bool is_id(const std::string& id) {
  const auto fits = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !id.empty() && id.size() <= 60 && std::all_of(id.begin(), id.end(), fits);
}

engine::LabelRules rules_of(const Sheet& s) {
  engine::LabelRules r;
  r.profile = s.id;
  r.product = s.name;
  r.basis = s.basis;
  r.dihydrate_per_gram = s.dihydrate_per_gram_mg;
  r.per_brood_box = s.per_brood_box_mg;
  r.most_per_brood_box = s.most_per_brood_box_mg;
  r.most_per_colony = s.most_per_colony_mg;
  r.supers = s.supers;
  r.cartridge = s.cartridge;
  r.withdrawal_days = s.withdrawal_days;
  r.dwell_goal = s.dwell_goal_s;
  r.dwell_least = s.dwell_least_s;
  r.seal_goal = s.seal_goal_s;
  r.seal_least = s.seal_least_s;
  return r;
}

// "numbers": {"per_brood_box_mg": {"source": "...", "confidence": "..."}, ...}
std::string read_numbers(const json& from, std::vector<NumberSource>& to) {
  const auto numbers = from.find("numbers");
  if (numbers == from.end()) return {};
  if (!numbers->is_object()) return "numbers: must be an object";
  for (const auto& [field, value] : numbers->items()) {
    NumberSource number{field, {}, {}};
    if (!from.contains(field)) return "numbers." + field + ": the file has no such field";
    if (!value.is_object()) return "numbers." + field + ": must be an object";
    json_fields::Reader reader(value, "numbers." + field);
    reader("source", number.source);
    reader("confidence", number.confidence);
    if (!reader.wrong().empty()) return reader.wrong();
    to.push_back(std::move(number));
  }
  return {};
}

std::string what_is_wrong(const Sheet& s) {
  if (!is_id(s.id)) return "id: must be small letters, digits and dashes";
  if (s.name.empty()) return "name: is empty";
  if (s.region.empty()) return "region: is empty";
  if (s.source.empty()) return "source: is empty; name the document";
  if (s.check_your_label.empty()) return "check_your_label: is empty";
  if (s.basis == engine::Basis::Product && !s.dihydrate_per_gram_mg)
    return "dihydrate_per_gram_mg: is missing; the grams are of a product";
  if (s.most_per_brood_box_mg > kLargestMass) return "most_per_brood_box_mg: is above 1 kg";
  if (s.most_per_colony_mg > kLargestMass) return "most_per_colony_mg: is above 1 kg";
  return engine::what_is_wrong(rules_of(s));
}

engine::Result<std::string> read_text(const fs::path& path) {
  std::error_code failed;
  const auto size = fs::file_size(path, failed);
  if (failed) return Status(Code::Failed, "cannot be read: " + failed.message());
  if (size > kLargestFile) return bad("is larger than any label file (256 kB)");
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (!in) return Status(Code::Failed, "cannot be read");
  return text.str();
}

std::vector<fs::path> json_files(const fs::path& folder, std::error_code& failed) {
  std::vector<fs::path> files;
  fs::directory_iterator at(folder, failed);
  for (const fs::directory_iterator end; !failed && at != end; at.increment(failed))
    if (at->path().extension() == ".json") files.push_back(at->path());
  std::sort(files.begin(), files.end());
  return files;
}

// The folders one after the other. A keeper's own file stands for its id even when it is refused:
// the shipped profile of that id may allow more than the keeper's label, and must not slip in.
class Shelving {
 public:
  void take_file(const fs::path& path, std::size_t folder) {
    const auto text = read_text(path);
    auto profile = text.ok() ? parse_label(text.value()) : text.status();
    if (profile.ok()) return put_on(std::move(profile).value(), folder);
    const std::string line = fmt::format("{}: {}", path.string(), profile.status().message());
    refused_.push_back({line, folder, {path.stem().string(), id_in(text)}});
  }
  void refuse_folder(const std::string& line, std::size_t folder) {
    refused_.push_back({line, folder, {}});
  }
  LabelShelf finish() {
    LabelShelf shelf;
    for (const Refused& r : refused_) {
      std::string line = r.line;
      for (const std::string& id : r.ids)
        if (withhold(id, r.folder))
          line += fmt::format("; until it is mended the shipped profile \"{}\" is not offered", id);
      shelf.refused.push_back(std::move(line));
    }
    for (auto& [id, placed] : placed_) shelf.profiles.push_back(std::move(placed.profile));
    return shelf;
  }

 private:
  struct Placed {
    LabelProfile profile;
    std::size_t folder = 0;
  };
  struct Refused {
    std::string line;
    std::size_t folder = 0;
    std::vector<std::string> ids;  // that the file may have been meant for
  };

  void put_on(LabelProfile profile, std::size_t folder) {
    const std::string id = profile.id;
    placed_[id] = {std::move(profile), folder};
  }
  // The value of "id", also where the text around it is no JSON.
  static std::string id_in(const engine::Result<std::string>& text) {
    if (!text.ok()) return {};
    const std::string& t = text.value();
    const std::size_t key = t.find("\"id\"");
    const std::size_t colon = t.find(':', key == std::string::npos ? key : key + 4);
    const std::size_t from = t.find('"', colon);
    if (key == std::string::npos || colon == std::string::npos || from == std::string::npos)
      return {};
    const std::size_t to = t.find('"', from + 1);
    return to == std::string::npos ? "" : t.substr(from + 1, to - from - 1);
  }
  bool withhold(const std::string& id, std::size_t folder) {
    const auto at = placed_.find(id);
    if (at == placed_.end() || at->second.folder >= folder) return false;
    placed_.erase(at);
    return true;
  }

  std::map<std::string, Placed> placed_;
  std::vector<Refused> refused_;
};

}  // namespace

engine::Result<LabelProfile> parse_label(const std::string& text) {
  const json parsed = json::parse(text, nullptr, false);
  if (!parsed.is_object()) return bad("is no JSON object; look for a missing comma or quote");
  if (const std::string key = unknown_key(parsed); !key.empty())
    return bad(key + ": is no field of a label profile; check its spelling");
  Sheet s;
  json_fields::Reader reader(parsed, "");
  Sheet::fields(s, reader);
  if (!reader.wrong().empty()) return bad(reader.wrong());
  if (const std::string wrong = what_is_wrong(s); !wrong.empty()) return bad(wrong);
  LabelProfile p;
  if (const std::string wrong = read_numbers(parsed, p.numbers); !wrong.empty()) return bad(wrong);
  p.rules = rules_of(s);
  p.id = std::move(s.id);
  p.region = std::move(s.region);
  p.name = std::move(s.name);
  p.source = std::move(s.source);
  p.checked = s.checked;
  p.check_your_label = std::move(s.check_your_label);
  p.method = s.method;
  p.cautions = std::move(s.cautions);
  return p;
}

engine::Result<LabelShelf> load_labels(const std::vector<std::string>& folders) {
  Shelving shelving;
  for (std::size_t i = 0; i < folders.size(); ++i) {
    std::error_code failed;
    const auto files = json_files(folders[i], failed);
    if (failed && i == 0)
      return Status(Code::NotFound, fmt::format("{}: the folder of label profiles cannot be read: "
                                                "{}; install the program again",
                                                folders[i], failed.message()));
    if (failed && failed != std::errc::no_such_file_or_directory)
      shelving.refuse_folder(
          fmt::format("{}: your own label files cannot be read: {}", folders[i], failed.message()),
          i);
    for (const fs::path& file : files) shelving.take_file(file, i);
  }
  LabelShelf shelf = shelving.finish();
  std::sort(shelf.profiles.begin(), shelf.profiles.end(),
            [](const LabelProfile& a, const LabelProfile& b) {
              return std::tie(a.region, a.name, a.id) < std::tie(b.region, b.name, b.id);
            });
  return shelf;
}

const LabelProfile* find_label(const LabelShelf& shelf, const std::string& id) {
  for (const LabelProfile& p : shelf.profiles)
    if (p.id == id) return &p;
  return nullptr;
}

}  // namespace storage
