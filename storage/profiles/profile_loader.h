// storage/profiles/profile_loader.h -- folders of rules as JSON files, one file a profile. Private
// to storage.
//
// Labels and methods are loaded alike. A bad file is named and left out; the others load. A file in
// a later folder replaces an earlier one of the same id.
#pragma once
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "storage/profiles/number_source.h"
#include "storage/text/json_fields.h"

namespace storage::profile_loader {

namespace fs = std::filesystem;

// The file's text. Failed: cannot be read. BadInput: larger than any such file.
[[nodiscard]] engine::Result<std::string> read_text(const fs::path& path);
// All *.json of the folder by name.
[[nodiscard]] std::vector<fs::path> json_files(const fs::path& folder, std::error_code& failed);
// The value of "id", also where the text around it is no JSON; empty when there is none.
[[nodiscard]] std::string id_in(const engine::Result<std::string>& text);
// Small letters, digits and dashes, at most 60.
[[nodiscard]] bool is_id(const std::string& id);
// What is wrong with a file, for whoever wrote it.
[[nodiscard]] inline engine::Status bad(const std::string& what) {
  return {engine::Code::BadInput, what};
}
// Reads "numbers": {"per_brood_box_mg": {"source": "...", "confidence": "..."}, ...}; names what is
// wrong, or empty.
[[nodiscard]] std::string read_numbers(const nlohmann::json& from, std::vector<NumberSource>& to);

// The limits as they stand in a file, with their units.
template <class Limits, class F>
void limits_fields(Limits& l, F& f) {
  f("brood", l.brood), f("uses_per_year", l.uses_per_year);
  f("min_interval_days", l.min_interval_days), f("most_rounds", l.most_rounds);
  f("days_in_hive", l.days_in_hive), f("supers_after_days", l.supers_after_days);
  f("wait_from", l.wait_from), f("least_tenths_c", l.least), f("most_tenths_c", l.most);
  f("temperature_days", l.temperature_days), f("least_frames", l.least_frames);
  f("entrance_open", l.entrance_open);
}

// A misspelt optional field would silently loosen a rule: every key must be in Sheet's fields.
template <class Sheet>
[[nodiscard]] std::string unknown_key(const nlohmann::json& from) {
  std::vector<std::string> names{"numbers"};
  const Sheet sheet;
  Sheet::fields(sheet, [&](const char* key, const auto&) { names.emplace_back(key); });
  for (const auto& [key, value] : from.items())
    if (std::find(names.begin(), names.end(), key) == names.end()) return key;
  return {};
}

template <class Profile>
struct Shelf {
  std::vector<Profile> profiles;     // by id
  std::vector<std::string> refused;  // one line a file
};

// The folders one after the other. A keeper's own file stands for its id even when it is refused:
// the shipped profile of that id may allow more than the keeper's label, and must not slip in.
template <class Profile>
class Shelving {
 public:
  using Parse = engine::Result<Profile> (*)(const std::string&);
  explicit Shelving(Parse parse) : parse_(parse) {}

  void take_file(const fs::path& path, std::size_t folder) {
    const auto text = read_text(path);
    auto profile = text.ok() ? parse_(text.value()) : engine::Result<Profile>(text.status());
    if (profile.ok()) return put_on(std::move(profile).value(), folder);
    const std::string line = fmt::format("{}: {}", path.string(), profile.status().message());
    refused_.push_back({line, folder, {path.stem().string(), id_in(text)}});
  }
  void refuse_folder(const std::string& line, std::size_t folder) {
    refused_.push_back({line, folder, {}});
  }
  Shelf<Profile> finish() {
    Shelf<Profile> shelf;
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
    Profile profile;
    std::size_t folder = 0;
  };
  struct Refused {
    std::string line;
    std::size_t folder = 0;
    std::vector<std::string> ids;  // that the file may have been meant for
  };

  void put_on(Profile profile, std::size_t folder) {
    const std::string id = profile.id;
    placed_[id] = {std::move(profile), folder};
  }
  bool withhold(const std::string& id, std::size_t folder) {
    const auto at = placed_.find(id);
    if (at == placed_.end() || at->second.folder >= folder) return false;
    placed_.erase(at);
    return true;
  }

  Parse parse_;
  std::map<std::string, Placed> placed_;
  std::vector<Refused> refused_;
};

// A folder that is not there counts as empty, except the first: NotFound. `what` they are: "label".
template <class Profile>
[[nodiscard]] engine::Result<Shelf<Profile>> load(const std::vector<std::string>& folders,
                                                  typename Shelving<Profile>::Parse parse,
                                                  const char* what) {
  Shelving<Profile> shelves(parse);
  for (std::size_t i = 0; i < folders.size(); ++i) {
    std::error_code failed;
    const auto files = json_files(folders[i], failed);
    if (failed && i == 0)
      return engine::Status(engine::Code::NotFound,
                            fmt::format("{}: the folder of {} profiles cannot be read: {}; "
                                        "install the program again",
                                        folders[i], what, failed.message()));
    if (failed && failed != std::errc::no_such_file_or_directory)
      shelves.refuse_folder(fmt::format("{}: your own {} files cannot be read: {}", folders[i],
                                        what, failed.message()),
                            i);
    for (const fs::path& file : files) shelves.take_file(file, i);
  }
  return shelves.finish();
}

}  // namespace storage::profile_loader
