#include "ui/app/app_assets.h"

#include <nlohmann/json.hpp>

#include "storage/disk/whole_file.h"
#include "storage/profiles/labels.h"
#include "storage/profiles/methods.h"

namespace ui {
namespace {

constexpr std::size_t kMostThemeBytes = 1 << 20;

LabelSeen seen(const storage::LabelProfile& p) {
  return {p.id,       p.region, p.name, p.source, engine::iso_date(p.checked), p.check_your_label,
          p.cautions, p.rules};
}

std::string field(const nlohmann::json& from, const char* name) {
  const auto at = from.find(name);
  return at != from.end() && at->is_string() ? at->get<std::string>() : std::string();
}

ThemeText theme_text(const nlohmann::json& json) {
  ThemeText text{field(json, "name"), {}};
  const auto skins = json.find("skins");
  if (skins == json.end() || !skins->is_array()) return text;
  for (const auto& s : *skins)
    text.skins.push_back({field(s, "surface"), field(s, "ground"), field(s, "ink"),
                          field(s, "quiet"), field(s, "edge")});
  return text;
}

void load_themes(const std::string& file, Assets& assets) {
  const auto bytes = storage::read_whole_file(file, kMostThemeBytes);
  if (!bytes.ok()) return assets.refused.push_back(bytes.status().message());
  const auto json = nlohmann::json::parse(bytes.value(), nullptr, false);
  if (!json.is_array()) return assets.refused.push_back(file + ": must be a list of themes");
  for (const auto& one : json) {
    auto theme = make_theme(theme_text(one));
    if (theme.ok())
      assets.themes.push_back(std::move(theme).value());
    else
      assets.refused.push_back(file + ": " + theme.status().message());
  }
}

// The shipped folder, then the keeper's own.
std::vector<std::string> folders_of(const std::string& folder,
                                    const storage::Environment& environment, const char* below) {
  std::vector<std::string> folders{folder + below};
  if (const auto own = storage::data_folder(environment); own.ok())
    folders.push_back(own.value() + below);
  return folders;
}

}  // namespace

engine::Result<Assets> load_assets(const std::string& folder,
                                   const storage::Environment& environment) {
  const auto shelf = storage::load_labels(folders_of(folder, environment, "/labels"));
  if (!shelf.ok()) return shelf.status();
  const auto methods = storage::load_methods(folders_of(folder, environment, "/methods"));
  if (!methods.ok()) return methods.status();
  Assets assets;
  for (const storage::LabelProfile& p : shelf.value().profiles) assets.labels.push_back(seen(p));
  assets.methods = storage::rules_of(methods.value());
  assets.refused = shelf.value().refused;
  const auto& refused = methods.value().refused;
  assets.refused.insert(assets.refused.end(), refused.begin(), refused.end());
  load_themes(folder + "/themes.json", assets);
  return assets;
}

}  // namespace ui
