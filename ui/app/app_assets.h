// ui/app/app_assets.h -- the data of assets/ as the screens want it.
#pragma once
#include <string>
#include <vector>

#include "storage/disk/paths.h"
#include "ui/screens/base/screen.h"

namespace ui {

struct Assets {
  std::vector<LabelSeen> labels;
  std::vector<Theme> themes;
  std::vector<std::string> refused;  // files that were left out, and why
  std::vector<engine::MethodRules> methods{};
};

// Label profiles of `folder`/labels and methods of `folder`/methods, each also of the keeper's own
// data folder; themes of
// `folder`/themes.json (the built-in ones serve when the file is not there or not good).
[[nodiscard]] engine::Result<Assets> load_assets(const std::string& folder,
                                                 const storage::Environment& environment);

}  // namespace ui
