#include "storage/intake.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "storage/bag.h"
#include "storage/bag_read.h"
#include "storage/events_jsonl.h"
#include "storage/payload_path.h"

namespace storage {
namespace {

constexpr int kMostDepth = 16;                 // folders below the one that was named
constexpr std::size_t kMostFolders = 100'000;  // looked into in one call
const char* const kEvents = "data/events.jsonl";

class Reader {
 public:
  Reader(Files& files, const Progress& progress) : files_(files), progress_(progress) {}

  Status look_into(const std::string& folder);
  Intake finish();

 private:
  void walk(const std::string& folder, int depth);
  void read_bundle(const std::string& folder);
  void read_events(const std::string& folder, const std::string& name);
  [[nodiscard]] FileKind kind_of(const std::string& path) {
    FileInfo info;
    return files_.info(path, info) == 0 ? info.kind : FileKind::None;
  }

  Files& files_;
  const Progress& progress_;
  std::size_t folders_ = 0;
  Intake found_;
};

Status Reader::look_into(const std::string& folder) {
  std::string path = folder;
  while (path.size() > 1 && path.back() == '/') path.pop_back();
  if (kind_of(path + "/.") != FileKind::Folder)
    return {Code::NotFound, fmt::format("{}: no such folder", shown_path(folder))};
  walk(path, 0);
  return {};
}

void Reader::walk(const std::string& folder, int depth) {
  if (kind_of(folder + "/bagit.txt") == FileKind::Regular) return read_bundle(folder);
  std::vector<std::string> names;
  if (++folders_ > kMostFolders) return;
  if (const int err = files_.list(folder, names)) {
    found_.lines.push_back(trouble(Medium::Folder, Doing::Reading, err, folder).message());
    return;
  }
  for (const std::string& name : names) {
    const std::string path = folder + "/" + name;
    if (name.starts_with(".part-") || kind_of(path) != FileKind::Folder) continue;
    if (depth < kMostDepth)
      walk(path, depth + 1);
    else
      found_.lines.push_back(shown_path(path) + ": lies too deep, was not looked into");
  }
}

void Reader::read_bundle(const std::string& folder) {
  ++found_.bundles;
  if (progress_) progress_(fmt::format("reading bundle {}", found_.bundles), 0, 0);
  const auto report = check_bag(files_, folder);
  const std::string name = shown_path(folder.substr(folder.find_last_of('/') + 1));
  if (!report.ok()) {
    found_.lines.push_back(fmt::format("{}: {}", name, report.status().message()));
    return;
  }
  if (const Status verdict = report.value().verdict(); verdict.ok())
    ++found_.whole;
  else
    found_.lines.push_back(verdict.message());
  // Looked at again, as a damaged bundle may hold anything under this name.
  if (kind_of(folder + "/data") == FileKind::Folder &&
      kind_of(folder + "/" + kEvents) == FileKind::Regular)
    read_events(folder, name);
  else
    found_.lines.push_back(fmt::format("{}: holds no {}, so nothing to merge", name, kEvents));
}

void Reader::read_events(const std::string& folder, const std::string& name) {
  EventLines lines;
  const int err = read_pieces(files_, folder + "/" + kEvents, [&](std::string_view piece) {
    lines.take(piece);
    return true;
  });
  lines.end();
  if (err != 0)
    found_.lines.push_back(trouble(Medium::Folder, Doing::Reading, err, kEvents).message());
  if (lines.bad() == 1)
    found_.lines.push_back(
        fmt::format("{}: line {} of events.jsonl is no whole entry and is left "
                    "out",
                    name, lines.first_bad()));
  if (lines.bad() > 1)
    found_.lines.push_back(
        fmt::format("{}: {} lines of events.jsonl, the first is {}, are no whole "
                    "entries and are left out",
                    name, lines.bad(), lines.first_bad()));
  for (Sealed& event : lines.events()) found_.events.push_back(std::move(event));
}

Intake Reader::finish() {
  if (folders_ > kMostFolders)
    found_.lines.push_back(
        fmt::format("more than {} folders: the rest was not looked into; name a "
                    "folder further down",
                    kMostFolders));
  const auto key = [](const Sealed& s) {
    return std::tie(s.record.device, s.record.seq, s.hash, s.prev);
  };
  std::vector<Sealed>& events = found_.events;
  std::sort(events.begin(), events.end(),
            [&](const Sealed& a, const Sealed& b) { return key(a) < key(b); });
  events.erase(std::unique(events.begin(), events.end()), events.end());
  return std::move(found_);
}

}  // namespace

Result<Intake> read_bundles(Files& files, const std::vector<std::string>& folders,
                            const Progress& progress) {
  Reader reader(files, progress);
  for (const std::string& folder : folders)
    if (Status looked = reader.look_into(folder); !looked.ok()) return looked;
  return reader.finish();
}

Result<Intake> read_bundles(const std::vector<std::string>& folders, const Progress& progress) {
  DiskFiles files;
  return read_bundles(files, folders, progress);
}

}  // namespace storage
