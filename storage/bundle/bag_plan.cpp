#include "storage/bundle/bag_plan.h"

#include <algorithm>
#include <map>
#include <set>

#include "storage/disk/payload_path.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr std::size_t kNameHash = 16;  // digits of the manifest's hash in the bundle's name

bool all_of(std::string_view text, std::string_view allowed) {
  return text.find_first_not_of(allowed) == std::string_view::npos;
}

bool is_day(std::string_view d) {
  if (d.size() != 10 || d[4] != '-' || d[7] != '-') return false;
  const std::string digits =
      std::string(d.substr(0, 4)) + std::string(d.substr(5, 2)) + std::string(d.substr(8, 2));
  if (!all_of(digits, "0123456789")) return false;
  const std::string_view month = d.substr(5, 2), day = d.substr(8, 2);
  return month >= "01" && month <= "12" && day >= "01" && day <= "31";
}

Status bad(const std::string& why) { return {Code::BadInput, "the bundle: " + why}; }

Status check_words(const BagRequest& r) {
  if (r.parent.empty()) return bad("no folder was chosen");
  if (r.device_short.size() < 4 || r.device_short.size() > 16 ||
      !all_of(r.device_short, "abcdefghijklmnopqrstuvwxyz0123456789"))
    return bad("the device id \"" + shown_path(r.device_short) + "\" is not 4 to 16 of a-z, 0-9");
  if (!is_day(r.day)) return bad("the day \"" + shown_path(r.day) + "\" is not YYYY-MM-DD");
  if (!is_day(r.bagging_date))
    return bad("the bagging date \"" + shown_path(r.bagging_date) + "\" is not YYYY-MM-DD");
  for (const auto& [label, value] : r.tags) {
    const std::string low = lower_case(label);
    if (low == "payload-oxum" || low == "bagging-date")
      return bad("the tag " + label + " is written by itself");
    if (const std::string why = why_not_tag(label, value); !why.empty())
      return bad("the tag \"" + shown_path(label) + "\" " + why);
  }
  return {};
}

// Every folder above `path`, outermost first: "a/b/c" gives "a", "a/b".
std::vector<std::string> folders_above(const std::string& path) {
  std::vector<std::string> out;
  for (std::size_t slash = path.find('/'); slash != std::string::npos;
       slash = path.find('/', slash + 1))
    out.push_back(path.substr(0, slash));
  return out;
}

Status check_payload(const BagRequest& r) {
  if (r.payload.empty()) return bad("it would hold no file");
  if (r.payload.size() + 5 > kMostBagFiles) return bad("it would hold too many files");
  std::set<std::string> files;                 // lower case: FAT keeps one of Day.csv and day.csv
  std::map<std::string, std::string> folders;  // lower case, and as first spelled
  for (const Payload& p : r.payload) {
    if (const std::string why = why_not_writable(p.path); !why.empty())
      return bad("the file name \"" + shown_path(p.path) + "\" " + why);
    if (!files.insert(lower_case(p.path)).second)
      return bad("the file name \"" + p.path + "\" comes twice (capitals do not count)");
    for (const std::string& folder : folders_above(p.path))
      if (folders.emplace(lower_case(folder), folder).first->second != folder)
        return bad("the folder \"" + folder + "\" is spelled in two ways (capitals do not count)");
  }
  for (const auto& [low, folder] : folders)
    if (files.contains(low)) return bad("\"" + folder + "\" is both a file and a folder");
  return {};
}

std::vector<BagFile> listed(const std::vector<PlannedFile>& files, std::size_t from) {
  std::vector<BagFile> out;
  for (std::size_t i = from; i < files.size(); ++i)
    out.push_back({files[i].path, files[i].bytes.size(), files[i].hash});
  return out;
}

void add_text(BagPlan& plan, const char* path, std::string text) {
  plan.texts.push_back(std::move(text));
  const std::string_view bytes = plan.texts.back();
  plan.files.push_back({path, bytes, sha256(bytes)});
}

void add_payload(BagPlan& plan, const BagRequest& r) {
  std::set<std::string> folders;  // the payload is never empty, so "data" gets in
  for (const Payload& p : r.payload) {
    const std::string path = "data/" + p.path;
    for (const std::string& folder : folders_above(path)) folders.insert(folder);
    plan.files.push_back({path, p.bytes, sha256(p.bytes)});
    plan.payload_bytes += p.bytes.size();
  }
  plan.folders.assign(folders.begin(), folders.end());  // sorted: parents come first
}

void add_tag_files(BagPlan& plan, const BagRequest& r) {
  const std::size_t payload = plan.files.size();
  plan.texts.reserve(5);  // so that the views into short texts stay good
  Tags tags = {{"Payload-Oxum", oxum(plan.payload_bytes, payload)},
               {"Bagging-Date", r.bagging_date}};
  tags.insert(tags.end(), r.tags.begin(), r.tags.end());
  std::string manifest = manifest_text(listed(plan.files, 0));
  plan.manifest = sha256(manifest);
  add_text(plan, "bagit.txt", bag_declaration());
  add_text(plan, "bag-info.txt", info_text(tags));
  add_text(plan, "manifest-sha256.txt", std::move(manifest));
  if (!r.readme.empty()) add_text(plan, kReadmeName, r.readme);
  add_text(plan, "tagmanifest-sha256.txt", manifest_text(listed(plan.files, payload)));
}

}  // namespace

Result<BagPlan> plan_bag(const BagRequest& request) {
  if (Status why = check_words(request); !why.ok()) return why;
  if (Status why = check_payload(request); !why.ok()) return why;
  BagPlan plan;
  add_payload(plan, request);
  add_tag_files(plan, request);
  for (const PlannedFile& file : plan.files) plan.all_bytes += file.bytes.size();
  plan.name = "duskwalk-" + request.day + "-" + request.device_short + "-" +
              hex(plan.manifest).substr(0, kNameHash);
  return plan;
}

std::uint64_t room_needed(const BagPlan& plan, std::uint64_t block) {
  block = std::max<std::uint64_t>(block, 512);
  std::uint64_t blocks = plan.folders.size() + 1 + 16;
  for (const PlannedFile& file : plan.files) blocks += (file.bytes.size() + block - 1) / block;
  return blocks * block + 64 * 1024;
}

std::string part_name(const std::string& name) { return ".part-" + name; }

bool is_left_over(const std::string& name, const std::string& device_short) {
  const std::string head = ".part-duskwalk-";
  const std::size_t day = 10;
  if (!name.starts_with(head) || name.size() < head.size() + day) return false;
  return is_day(std::string_view(name).substr(head.size(), day)) &&
         name.compare(head.size() + day, device_short.size() + 2, "-" + device_short + "-") == 0;
}

}  // namespace storage
