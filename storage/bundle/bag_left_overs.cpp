#include "storage/bundle/bag_left_overs.h"

#include <unistd.h>

#include <algorithm>

#include "storage/bundle/bag_text.h"
#include "storage/disk/payload_path.h"

namespace storage {
namespace {

constexpr int kDeepestPart = 16;  // folders in an unfinished bundle; ours are 3 deep

bool is_tag_file(const std::string& name) {
  const char* const ours[] = {"bagit.txt", "bag-info.txt", "manifest-sha256.txt",
                              "tagmanifest-sha256.txt"};
  return std::find(std::begin(ours), std::end(ours), name) != std::end(ours);
}

// What an unfinished bundle holds, parents first, or that it is none of ours.
class Part {
 public:
  Part(Files& files, std::string path, const FileInfo& parent)
      : files_(files), path_(std::move(path)), parent_(parent) {}

  // Looks only.
  bool is_ours() { return is_our_folder("") && look_into("", 0); }
  // In the order in which each folder is empty when its turn comes.
  void remove() {
    for (const std::string& file : found_files_) (void)files_.remove_file(file);
    for (auto folder = folders_.rbegin(); folder != folders_.rend(); ++folder)
      (void)files_.remove_folder(*folder);
  }

 private:
  bool is_our_folder(const std::string& below) {
    const std::string path = below.empty() ? path_ : path_ + "/" + below;
    FileInfo info;
    if (files_.info(path, info) != 0 || info.kind != FileKind::Folder) return false;
    if (info.device != parent_.device) return false;
    if (info.owner != parent_.owner && info.owner != ::geteuid()) return false;
    folders_.push_back(path);
    return true;
  }

  bool look_into(const std::string& below, int depth) {
    std::vector<std::string> names;
    if (depth > kDeepestPart || files_.list(folders_.back(), names) != 0) return false;
    return std::all_of(names.begin(), names.end(), [&](const std::string& name) {
      return is_ours(below.empty() ? name : below + "/" + name, depth);
    });
  }

  bool is_ours(const std::string& below, int depth) {
    if (found_files_.size() + folders_.size() > kMostBagFiles) return false;
    const bool payload = below.starts_with("data/");
    if (payload && !why_not_writable(below.substr(5)).empty()) return false;
    FileInfo info;
    if (files_.info(path_ + "/" + below, info) != 0) return false;
    if (info.kind == FileKind::Folder && (payload || below == "data"))
      return is_our_folder(below) && look_into(below, depth + 1);
    if (info.kind != FileKind::Regular || !(payload || is_tag_file(below))) return false;
    found_files_.push_back(path_ + "/" + below);
    return true;
  }

  Files& files_;
  const std::string path_;
  const FileInfo parent_;
  std::vector<std::string> found_files_, folders_;
};

}  // namespace

std::vector<std::string> clean_left_overs(Files& files, const std::string& parent,
                                          const FileInfo& above, const std::string& device_short) {
  std::vector<std::string> names, stay;
  if (files.list(parent, names) != 0) return {};
  for (const std::string& name : names) {
    if (!is_left_over(name, device_short)) continue;
    Part part(files, parent + "/" + name, above);
    if (part.is_ours())
      part.remove();
    else
      stay.push_back(name);
  }
  return stay;
}

void remove_written(Files& files, const std::string& part, const BagPlan& plan) {
  for (const PlannedFile& file : plan.files) (void)files.remove_file(part + "/" + file.path);
  for (auto folder = plan.folders.rbegin(); folder != plan.folders.rend(); ++folder)
    (void)files.remove_folder(part + "/" + *folder);
  (void)files.remove_folder(part);
}

}  // namespace storage
