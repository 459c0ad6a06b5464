#include "storage/bundle/bundle_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <deque>
#include <future>
#include <iterator>
#include <thread>
#include <tuple>

#include "storage/bundle/bag.h"
#include "storage/bundle/bag_read.h"
#include "storage/bundle/bundle_signatures.h"
#include "storage/disk/payload_path.h"
#include "storage/disk/threads.h"
#include "storage/journal/events_jsonl.h"

namespace storage {
namespace {

constexpr int kMostDepth = 16;                 // folders below the one that was named
constexpr std::size_t kMostFolders = 100'000;  // looked into in one call
const char* const kEvents = "data/events.jsonl";

// A bundle, and the folder that was named and is held while it is read.
struct FoundBundle {
  std::string top, bundle;
};

// The bundles below some folders.
class Search {
 public:
  explicit Search(Files& files) : files_(files) {}

  Status look_into(const std::string& folder);
  [[nodiscard]] const std::vector<FoundBundle>& bundles() const { return bundles_; }
  [[nodiscard]] std::vector<std::string> lines() const;

 private:
  void walk(const std::string& folder, int depth);

  Files& files_;
  std::size_t folders_ = 0;
  std::string top_;
  std::vector<FoundBundle> bundles_;
  std::vector<std::string> lines_;
};

Status Search::look_into(const std::string& folder) {
  std::string path = folder;
  while (path.size() > 1 && path.back() == '/') path.pop_back();
  if (files_.hold(path) != 0)
    return {Code::NotFound, fmt::format("{}: no such folder", shown_path(folder))};
  top_ = path;
  walk(path, 0);
  return {};
}

void Search::walk(const std::string& folder, int depth) {
  if (kind_of(files_, folder + "/bagit.txt") == FileKind::Regular)
    return bundles_.push_back({top_, folder});
  std::vector<std::string> names;
  if (++folders_ > kMostFolders) return;
  if (const int err = files_.list(folder, names)) {
    lines_.push_back(trouble(Medium::Folder, Doing::Reading, err, folder).message());
    return;
  }
  for (const std::string& name : names) {
    const std::string path = folder + "/" + name;
    if (name.starts_with(".part-") || kind_of(files_, path) != FileKind::Folder) continue;
    if (depth < kMostDepth)
      walk(path, depth + 1);
    else
      lines_.push_back(shown_path(path) + ": lies too deep, was not looked into");
  }
}

std::vector<std::string> Search::lines() const {
  std::vector<std::string> lines = lines_;
  if (folders_ > kMostFolders)
    lines.push_back(
        fmt::format("more than {} folders: the rest was not looked into; name a "
                    "folder further down",
                    kMostFolders));
  return lines;
}

struct Bundle {
  bool whole = false;
  std::vector<std::string> lines;
  std::vector<Sealed> events;
  std::vector<Signature> signatures;
};

// Of a bundle that an earlier version wrote there is no such file.
void read_bundle_signatures(Files& files, const std::string& folder, const std::string& name,
                            Bundle& found) {
  const std::string path = folder + "/data/" + kSignaturesFile;
  if (kind_of(files, path) != FileKind::Regular) return;
  std::string text;
  bool too_big = false;
  const int err = read_text(files, path, kLargestSignatures, text, too_big);
  if (err != 0)
    found.lines.push_back(trouble(Medium::Folder, Doing::Reading, err, kSignaturesFile).message());
  else if (too_big)
    found.lines.push_back(fmt::format("{}: {} is too large to be read", name, kSignaturesFile));
  else
    found.signatures = keep_signed(name, read_signatures(text), found.events, found.lines);
}

void read_events(Files& files, const std::string& folder, const std::string& name, Bundle& found) {
  EventLines lines;
  const int err = read_pieces(files, folder + "/" + kEvents, [&](std::string_view piece) {
    lines.take(piece);
    return true;
  });
  lines.end();
  if (err != 0)
    found.lines.push_back(trouble(Medium::Folder, Doing::Reading, err, kEvents).message());
  if (lines.bad() == 1)
    found.lines.push_back(
        fmt::format("{}: line {} of events.jsonl is no whole entry and is left "
                    "out",
                    name, lines.first_bad()));
  if (lines.bad() > 1)
    found.lines.push_back(
        fmt::format("{}: {} lines of events.jsonl, the first is {}, are no whole "
                    "entries and are left out",
                    name, lines.bad(), lines.first_bad()));
  found.events = std::move(lines.events());
}

Bundle read_bundle(Files& files, const FoundBundle& place) {
  Bundle found;
  const std::string& folder = place.bundle;
  if (const int err = files.hold(place.top)) {
    found.lines.push_back(trouble(Medium::Folder, Doing::Reading, err, place.top).message());
    return found;
  }
  const auto report = check_bag(files, folder);
  const std::string name = shown_path(folder.substr(folder.find_last_of('/') + 1));
  if (!report.ok()) {
    found.lines.push_back(fmt::format("{}: {}", name, report.status().message()));
    return found;
  }
  const Status verdict = report.value().verdict();
  found.whole = verdict.ok();
  if (!verdict.ok()) found.lines.push_back(verdict.message());
  // Looked at again, as a damaged bundle may hold anything under this name.
  FileInfo events;
  const bool there = kind_of(files, folder + "/data") == FileKind::Folder &&
                     files.info(folder + "/" + kEvents, events) == 0 &&
                     events.kind == FileKind::Regular;
  if (there && events.size <= kMostBagBytes) {
    read_events(files, folder, name, found);
    read_bundle_signatures(files, folder, name, found);
  } else if (there)
    found.lines.push_back(fmt::format("{}: {} is too large to be read", name, kEvents));
  else
    found.lines.push_back(fmt::format("{}: holds no {}, so nothing to merge", name, kEvents));
  return found;
}

void add(Intake& all, Bundle bundle) {
  ++all.bundles;
  if (bundle.whole) ++all.whole;
  std::move(bundle.lines.begin(), bundle.lines.end(), std::back_inserter(all.lines));
  std::move(bundle.events.begin(), bundle.events.end(), std::back_inserter(all.events));
  std::move(bundle.signatures.begin(), bundle.signatures.end(), std::back_inserter(all.signatures));
}

void sort_once(std::vector<Sealed>& events) {
  const auto key = [](const Sealed& s) {
    return std::tie(s.record.device, s.record.seq, s.hash, s.prev);
  };
  std::sort(events.begin(), events.end(),
            [&](const Sealed& a, const Sealed& b) { return key(a) < key(b); });
  events.erase(std::unique(events.begin(), events.end()), events.end());
}

// `start` gives the future of one bundle; so many of them are under way at once.
template <class Start>
Result<Intake> read_each(Files& files, const std::vector<std::string>& folders,
                         const Progress& progress, std::size_t at_once, Start start) {
  Search search(files);
  for (const std::string& folder : folders)
    if (Status looked = search.look_into(folder); !looked.ok()) return looked;
  Intake all;
  all.lines = search.lines();
  std::deque<std::future<Bundle>> under_way;
  const auto take_front = [&] {
    if (progress) progress(fmt::format("reading bundle {}", all.bundles + 1), 0, 0);
    add(all, under_way.front().get());
    under_way.pop_front();
  };
  for (const FoundBundle& bundle : search.bundles()) {
    under_way.push_back(start(bundle));
    if (under_way.size() >= at_once) take_front();
  }
  while (!under_way.empty()) take_front();
  sort_once(all.events);
  std::sort(all.signatures.begin(), all.signatures.end());
  all.signatures.erase(std::unique(all.signatures.begin(), all.signatures.end()),
                       all.signatures.end());
  return all;
}

}  // namespace

Result<Intake> read_bundles(Files& files, const std::vector<std::string>& folders,
                            const Progress& progress) {
  return read_each(files, folders, progress, 1, [&](const FoundBundle& bundle) {
    return std::async(std::launch::deferred,
                      [&files, bundle] { return read_bundle(files, bundle); });
  });
}

Result<Intake> read_bundles(const std::vector<std::string>& folders, const Progress& progress) {
  DiskFiles files;
  const std::size_t at_once = std::max(1U, std::thread::hardware_concurrency());
  return read_each(files, folders, progress, at_once, [](const FoundBundle& bundle) {
    return std::async(kWhereThereIsRoom, [bundle] {
      DiskFiles own;
      return read_bundle(own, bundle);
    });
  });
}

}  // namespace storage
