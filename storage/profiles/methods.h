// storage/profiles/methods.h -- the rules of each way to treat, as data.
//
// One JSON file a method (assets/methods/*.json, described in assets/methods/README.md), loaded as
// label profiles are: the keeper's own files replace shipped ones, bad files are named, left out,
// and withhold the shipped file they stand for.
#pragma once
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "engine/method/method.h"
#include "storage/profiles/number_source.h"

namespace storage {

struct MethodProfile {
  std::string id;
  engine::MethodRules rules;
  std::string source;
  engine::Date checked{};
  std::vector<NumberSource> numbers;
};

struct MethodShelf {
  std::vector<MethodProfile> profiles;  // by method, then name
  std::vector<std::string> refused;     // one line a file
};

[[nodiscard]] engine::Result<MethodProfile> parse_method(const std::string& text);
[[nodiscard]] engine::Result<MethodShelf> load_methods(const std::vector<std::string>& folders);
[[nodiscard]] std::vector<engine::MethodRules> rules_of(const MethodShelf& shelf);

}  // namespace storage
