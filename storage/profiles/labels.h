// storage/profiles/labels.h -- label profiles: the rules of one kind of registered label, as data.
//
// One JSON file a profile (assets/labels/*.json, described in assets/labels/README.md); files in
// the user's own folder replace a shipped profile of the same id. The label in the keeper's hand
// always decides: every profile carries the line that says so, and every number says where it
// comes from and how sure it is. A bad file is named and left out; the others load. But when a bad
// file in a later folder has the id (or the file name) of an earlier folder's profile, that profile
// is left out too: it may allow more than the keeper's own label.
#pragma once
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "engine/core/terms.h"
#include "engine/rules/label.h"
#include "storage/profiles/number_source.h"

namespace storage {

struct LabelProfile {
  std::string id;      // also in rules.profile
  std::string region;  // "United States"
  std::string name;    // also in rules.product, until the keeper enters the label's own
  std::string source;
  engine::Date checked{};        // when the numbers were last compared with their sources
  std::string check_your_label;  // shown with every number
  engine::Method method = engine::Method::Vapor;
  int place = 0;  // in the list: those of 1 stand behind those of 0
  engine::LabelRules rules;
  std::vector<NumberSource> numbers;
  std::vector<std::string> cautions;
};

struct LabelShelf {
  std::vector<LabelProfile> profiles;  // by place, region, name
  std::vector<std::string> refused;    // one line a file: which, which field, what is wrong
};

// `text` is one file's content. BadInput names the field.
[[nodiscard]] engine::Result<LabelProfile> parse_label(const std::string& text);

// All *.json of the folders, in their order: a later folder's profile replaces an earlier one of
// the same id. A folder that is not there counts as empty, except the first: NotFound.
[[nodiscard]] engine::Result<LabelShelf> load_labels(const std::vector<std::string>& folders);

[[nodiscard]] const LabelProfile* find_label(const LabelShelf& shelf, const std::string& id);

}  // namespace storage
