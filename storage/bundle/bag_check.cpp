#include <algorithm>
#include <map>

#include "storage/bundle/bag.h"
#include "storage/bundle/bag_read.h"
#include "storage/disk/payload_path.h"

namespace storage {
namespace {

using engine::Code;
using engine::Result;
using engine::Status;

constexpr int kMostBagDepth = 16;
const char* const kDeclaration = "bagit.txt";
const char* const kInfo = "bag-info.txt";
const char* const kManifest = "manifest-sha256.txt";
const char* const kTagManifest = "tagmanifest-sha256.txt";

// Gathers the report on one folder. Only files that the walk through the folder found are opened,
// never a path just because a manifest names it.
class BagCheck {
 public:
  BagCheck(Files& files, std::string folder, Medium medium, const OnProgress& progress)
      : files_(files), folder_(std::move(folder)), medium_(medium), progress_(progress) {}

  Result<BagReport> run();

 private:
  Status walk(const std::string& below, int depth);
  Status read(const char* name, std::string& text);
  Status check_declaration();
  Status check_payload();
  Status check_tag_files();
  Status check_info();
  Status check_listed(const char* manifest, const std::vector<BagFile>& entries,
                      std::vector<BagFile>& good);
  void find_unlisted(const std::vector<BagFile>& entries);
  void note_loose_tag_files(const std::vector<BagFile>& entries);

  Status fail(int err, const std::string& path) const {
    return trouble(medium_, Doing::Reading, err, path);
  }
  void problem(std::string line) { report_.problems.add(std::move(line)); }
  bool has(const std::string& path) const { return found_.contains(path); }

  Files& files_;
  const std::string folder_;
  const Medium medium_;
  const OnProgress& progress_;
  std::map<std::string, std::uint64_t> found_;  // regular files in the folder, and their bytes
  std::uint64_t all_bytes_ = 0, read_bytes_ = 0;
  std::size_t entries_ = 0;  // files and folders seen
  std::size_t payload_files_ = 0;
  BagReport report_;
};

bool is_payload(const std::string& path) { return path.starts_with("data/"); }

Status BagCheck::walk(const std::string& below, int depth) {
  std::vector<std::string> names;
  const std::string here = below.empty() ? folder_ : folder_ + "/" + below;
  if (const int err = files_.list(here, names)) return fail(err, here);
  for (const std::string& name : names) {
    const std::string path = below.empty() ? name : below + "/" + name;
    FileInfo info;
    if (const int err = files_.info(folder_ + "/" + path, info)) return fail(err, path);
    if (++entries_ > kMostBagFiles) return {};
    if (info.kind == FileKind::Folder && depth >= kMostBagDepth)
      problem("folders lie too deep: " + shown_path(path));
    else if (info.kind == FileKind::Folder) {
      if (Status s = walk(path, depth + 1); !s.ok()) return s;
    } else if (info.kind == FileKind::Regular) {
      found_.emplace(path, info.size);
      all_bytes_ += info.size;
    } else {
      problem("not a plain file (a link is never followed): " + shown_path(path));
    }
  }
  return {};
}

// The text of a tag file, empty and a problem when it is missing or too big.
Status BagCheck::read(const char* name, std::string& text) {
  text.clear();
  if (!has(name)) {
    problem(std::string(name) + " is missing");
    return {};
  }
  bool too_big = false;
  if (const int err = read_text(files_, folder_ + "/" + name, kMostTagFile, text, too_big))
    return fail(err, name);
  if (too_big) {
    problem(std::string(name) + " is too big");
    text.clear();
  }
  return {};
}

Status BagCheck::check_declaration() {
  std::string text;
  if (Status s = read(kDeclaration, text); !s.ok()) return s;
  if (const std::string why = why_not_declaration(text); !why.empty())
    problem(std::string(kDeclaration) + " " + why);
  return {};
}

Status BagCheck::check_listed(const char* manifest, const std::vector<BagFile>& entries,
                              std::vector<BagFile>& good) {
  for (BagFile entry : entries) {
    if (!has(entry.path)) {
      problem(shown_path(entry.path) + " is missing (listed in " + manifest + ")");
      continue;
    }
    Hash hash{};
    const int err =
        hash_file(files_, folder_ + "/" + entry.path, hash, entry.bytes, [&](std::uint64_t more) {
          read_bytes_ += more;
          if (progress_) progress_({BagStep::ReadingBack, read_bytes_, all_bytes_});
        });
    if (err != 0) return fail(err, entry.path);
    if (hash == entry.hash)
      good.push_back(entry);
    else
      problem(shown_path(entry.path) + " is not what was written (SHA-256 differs)");
  }
  return {};
}

void BagCheck::find_unlisted(const std::vector<BagFile>& entries) {
  std::map<std::string, bool> listed;
  for (const BagFile& entry : entries) listed[entry.path] = true;
  for (const auto& [path, bytes] : found_) {
    if (!is_payload(path)) continue;
    ++payload_files_;
    report_.bytes += bytes;
    if (!listed.contains(path)) problem(shown_path(path) + " is extra (not in the manifest)");
  }
}

Status BagCheck::check_payload() {
  std::string text;
  if (Status s = read(kManifest, text); !s.ok()) return s;
  report_.manifest = sha256(text);
  std::vector<BagFile> entries = parse_manifest(kManifest, text, report_.problems);
  std::erase_if(entries, [&](const BagFile& entry) {
    if (is_payload(entry.path)) return false;
    problem(std::string(kManifest) + " lists a file outside data/: " + shown_path(entry.path));
    return true;
  });
  find_unlisted(entries);
  return check_listed(kManifest, entries, report_.payload);
}

void BagCheck::note_loose_tag_files(const std::vector<BagFile>& entries) {
  for (const char* needed : {kDeclaration, kInfo, kManifest})
    if (std::none_of(entries.begin(), entries.end(),
                     [&](const BagFile& entry) { return entry.path == needed; }))
      problem(std::string(kTagManifest) + " does not list " + needed);
  for (const auto& [path, bytes] : found_) {
    if (is_payload(path) || path == kTagManifest) continue;
    if (path == "fetch.txt") problem("fetch.txt: files to be fetched from elsewhere are not taken");
    if (std::none_of(entries.begin(), entries.end(),
                     [&, p = path](const BagFile& entry) { return entry.path == p; }))
      report_.notes.push_back(shown_path(path) + " is listed nowhere and was not checked");
  }
}

Status BagCheck::check_tag_files() {
  std::string text;
  if (Status s = read(kTagManifest, text); !s.ok()) return s;
  std::vector<BagFile> entries = parse_manifest(kTagManifest, text, report_.problems);
  std::erase_if(entries, [&](const BagFile& entry) {
    if (!is_payload(entry.path) && entry.path != kTagManifest) return false;
    problem(std::string(kTagManifest) + " lists what it must not: " + shown_path(entry.path));
    return true;
  });
  note_loose_tag_files(entries);
  std::vector<BagFile> good;
  return check_listed(kTagManifest, entries, good);
}

Status BagCheck::check_info() {
  std::string text;
  if (Status s = read(kInfo, text); !s.ok()) return s;
  report_.tags = parse_info(text, report_.problems);
  int oxums = 0;
  for (const auto& [label, value] : report_.tags) {
    if (lower_case(label) != "payload-oxum") continue;
    ++oxums;
    const auto counts = parse_oxum(value);
    if (!counts)
      problem("Payload-Oxum is not two numbers: " + shown_path(value));
    else if (counts->first != report_.bytes || counts->second != payload_files_)
      problem("Payload-Oxum says " + shown_path(value) + ", found " +
              oxum(report_.bytes, payload_files_));
  }
  if (oxums != 1) problem("bag-info.txt must say Payload-Oxum once");
  return {};
}

Result<BagReport> BagCheck::run() {
  FileInfo info;
  // "/." looks at the folder itself when a link leads there.
  if (const int err = files_.info(folder_ + "/.", info)) return fail(err, folder_);
  if (info.kind != FileKind::Folder)
    return {Code::NotFound, folder_ + " is no folder: give the folder of a bundle"};
  report_.name = folder_.substr(folder_.find_last_of('/') + 1);
  if (Status s = walk("", 0); !s.ok()) return s;
  if (!has(kDeclaration) && !has(kManifest))
    return {Code::NotFound, folder_ + " is no bundle: it holds no bagit.txt and no manifest"};
  if (all_bytes_ > kMostBagBytes) {
    problem("holds " + megabytes(all_bytes_, true) + ", more than a bundle can: it was not read");
    return std::move(report_);
  }
  if (entries_ > kMostBagFiles)
    problem("more than " + std::to_string(kMostBagFiles) + " files and folders");
  if (Status s = check_declaration(); !s.ok()) return s;
  if (Status s = check_payload(); !s.ok()) return s;
  if (Status s = check_tag_files(); !s.ok()) return s;
  if (Status s = check_info(); !s.ok()) return s;
  return std::move(report_);
}

}  // namespace

Status BagReport::verdict() const {
  if (whole()) return {};
  const std::size_t more = problems.count() - 1;
  return {Code::Damaged, "the bundle " + name + " is damaged: " + problems.lines().front() +
                             (more == 0 ? "" : "; and " + std::to_string(more) + " more") +
                             "; write it again from the tablet"};
}

Result<BagReport> check_bag(Files& files, const std::string& folder, Medium medium,
                            const OnProgress& progress) {
  std::string path = folder;
  while (path.size() > 1 && path.back() == '/') path.pop_back();
  return BagCheck(files, path, medium, progress).run();
}

Result<BagReport> check_bag(const std::string& folder, Medium medium, const OnProgress& progress) {
  DiskFiles files;
  (void)files.hold(folder);  // when it is none, the check says so
  return check_bag(files, folder, medium, progress);
}

namespace {

void add_names(Files& files, const std::string& folder, int depth, std::size_t& left, Sha256& sum) {
  std::vector<std::string> names;
  if (depth > kMostBagDepth || files.list(folder, names) != 0) return;
  for (const std::string& name : names) {
    if (left == 0) return;
    --left;
    FileInfo info;
    if (files.info(folder + "/" + name, info) != 0) continue;
    sum.add(std::to_string(depth) + "/" + name + "\n" + std::to_string(info.size) + " " +
            std::to_string(info.written_ns) + " " + std::to_string(info.changed_ns) + "\n");
    if (info.kind == FileKind::Folder) add_names(files, folder + "/" + name, depth + 1, left, sum);
  }
}

}  // namespace

Hash bag_fingerprint(Files& files, const std::string& folder) {
  std::size_t left = kMostBagFiles;
  Sha256 sum;
  add_names(files, folder, 0, left, sum);
  return sum.finish();
}

}  // namespace storage
