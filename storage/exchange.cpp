#include "storage/exchange.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <set>

#include "engine/register/words.h"
#include "storage/bag.h"
#include "storage/bag_read.h"
#include "storage/events_jsonl.h"
#include "storage/exchange_notes.h"
#include "storage/medium.h"
#include "storage/whole_file.h"

namespace storage {
namespace {

constexpr std::size_t kMostBundles = 100'000;  // of one folder
constexpr std::size_t kMostNotes = 64u << 20;  // bytes
constexpr std::size_t kEntriesOfOne = 25'000;  // of a new bundle
constexpr std::size_t kAtOnce = 50'000;        // entries merged together
const char* const kEvents = "/data/events.jsonl";
const char* const kFolderNote = ".exchange-folder";

std::string notes_path(const Store& store) { return exchange_notes_path(store.journal().path()); }

ExchangeNotes notes_of(const Store& store) {
  const auto text = read_whole_file(notes_path(store), kMostNotes);
  return text.ok() ? parse_exchange_notes(text.value()) : ExchangeNotes{};
}

FileKind kind_of(Files& files, const std::string& path) {
  FileInfo info;
  return files.info(path, info) == 0 ? info.kind : FileKind::None;
}

// Names of the bundles that lie in the folder itself. What is being written (".part-") has no
// bundle's name yet.
Result<std::vector<std::string>> bundles_in(Files& files, const std::string& folder) {
  std::vector<std::string> names, bundles;
  if (kind_of(files, folder + "/.") != FileKind::Folder)
    return {Code::NotFound, fmt::format("{}: no such folder", folder)};
  if (const int err = files.list(folder, names))
    return trouble(Medium::Folder, Doing::Reading, err, folder);
  for (std::string& name : names)
    if (name.starts_with("duskwalk-") && name.find(' ') == name.npos &&
        kind_of(files, folder + "/" + name) == FileKind::Folder && bundles.size() < kMostBundles)
      bundles.push_back(std::move(name));
  return bundles;
}

// All entries of a bundle that is whole; nothing while it is not.
std::optional<std::vector<Sealed>> entries_of(Files& files, const std::string& folder) {
  const auto report = check_bag(files, folder);
  if (!report.ok() || !report.value().whole()) return std::nullopt;
  if (kind_of(files, folder + kEvents) != FileKind::Regular) return std::nullopt;
  EventLines lines;
  const int err = read_pieces(files, folder + kEvents, [&](std::string_view piece) {
    lines.take(piece);
    return true;
  });
  lines.end();
  if (err != 0 || lines.bad() > 0) return std::nullopt;
  return std::move(lines.events());
}

SeqSets numbers_of(const std::vector<Sealed>& events) {
  std::map<std::string, std::vector<std::int64_t>> all;
  for (const Sealed& s : events) all[s.record.device].push_back(s.record.seq);
  SeqSets sets;
  for (auto& [device, numbers] : all) {
    std::sort(numbers.begin(), numbers.end());
    for (const std::int64_t n : numbers) sets[device].add(n);
  }
  return sets;
}

// What the journal holds and the folder does not.
SeqSets not_out(const Held& held, const ExchangeNotes& notes) {
  SeqSets out, left;
  for (const auto& [name, sets] : notes)
    for (const auto& [device, seqs] : sets)
      for (const SeqRange& range : seqs.ranges()) out[device].add(range);
  for (const auto& [device, mine] : held)
    if (SeqSet rest = mine.seqs.without(out[device]); !rest.empty()) left[device] = std::move(rest);
  return left;
}

class Pass {
 public:
  Pass(Store& store, const ExchangePlace& place, const Progress& progress)
      : store_(store), place_(place), progress_(progress), notes_(notes_of(store)) {}

  Status run() {
    auto names = bundles_in(files_, place_.folder);
    if (!names.ok()) return names.status();
    forget_gone(names.value());
    if (Status in = take_in(names.value()); !in.ok()) return in;
    Status out = put_out();
    const Status kept = keep_notes();
    return out.ok() ? kept : out;
  }
  Exchanged take() { return std::move(done_); }

 private:
  void forget_gone(const std::vector<std::string>& names) {
    const std::set<std::string> there(names.begin(), names.end());
    const auto gone =
        std::erase_if(notes_, [&](const auto& n) { return !there.contains(n.first); });
    changed_ = changed_ || gone > 0;
  }

  Status take_in(const std::vector<std::string>& names) {
    for (std::size_t i = 0; i < names.size(); ++i) {
      if (notes_.contains(names[i])) continue;
      if (progress_) progress_("reading bundles", i, names.size());
      auto events = entries_of(files_, place_.folder + "/" + names[i]);
      if (!events) {
        done_.waiting.push_back(names[i]);
        continue;
      }
      fresh_[names[i]] = numbers_of(*events);
      pending_.insert(pending_.end(), std::make_move_iterator(events->begin()),
                      std::make_move_iterator(events->end()));
      if (pending_.size() < kAtOnce) continue;
      if (Status merged = merge_pending(); !merged.ok()) return merged;
    }
    return merge_pending();
  }

  // What the folder holds is noted only when the journal holds it too.
  Status merge_pending() {
    if (fresh_.empty()) return {};
    auto merged = store_.merge(std::move(pending_), progress_);
    pending_.clear();
    if (!merged.ok()) return merged.status();
    done_.taken += fresh_.size();
    done_.entries += merged.value().added;
    done_.lines = std::move(merged.value().lines);
    notes_.merge(fresh_);
    fresh_.clear();
    changed_ = true;
    return {};
  }

  Status put_out() {
    const SeqSets left = not_out(store_.journal().held(), notes_);
    if (left.empty()) return {};
    std::vector<Sealed> portion;
    Status wrong;
    const Status read = store_.journal().replay([&](const Sealed& s) {
      const auto at = left.find(s.record.device);
      if (!wrong.ok() || at == left.end() || !at->second.holds(s.record.seq)) return;
      portion.push_back(s);
      if (portion.size() == kEntriesOfOne) wrong = put(portion);
    });
    if (!read.ok()) return read;
    if (wrong.ok() && !portion.empty()) wrong = put(portion);
    return wrong;
  }

  Status put(std::vector<Sealed>& portion) {
    BagRequest request;
    request.parent = place_.folder;
    request.device_short = engine::short_device(store_.device());
    request.day = request.bagging_date = place_.day;
    request.payload = {{"events.jsonl", events_jsonl(portion)}};
    const auto written = write_bag(files_, request);
    if (!written.ok()) return written.status();
    notes_[written.value().name] = numbers_of(portion);
    changed_ = true;
    done_.put.push_back(written.value().name);
    portion.clear();
    return {};
  }

  Status keep_notes() {
    return changed_ ? write_whole_file(notes_path(store_), to_text(notes_)) : Status{};
  }

  Store& store_;
  const ExchangePlace& place_;
  const Progress& progress_;
  DiskFiles files_;
  ExchangeNotes notes_;
  ExchangeNotes fresh_;          // of the bundles whose entries are pending
  std::vector<Sealed> pending_;  // read, not merged yet
  bool changed_ = false;
  Exchanged done_;
};

}  // namespace

Result<Exchanged> exchange(Store& store, const ExchangePlace& place, const Progress& progress) {
  if (Status able = store.writable(); !able.ok()) return able;
  Pass pass(store, place, progress);
  if (Status done = pass.run(); !done.ok()) return done;
  return pass.take();
}

Result<bool> exchange_waits(const Store& store, const std::string& folder) {
  DiskFiles files;
  const auto names = bundles_in(files, folder);
  if (!names.ok()) return names.status();
  const ExchangeNotes notes = notes_of(store);
  const std::set<std::string> there(names.value().begin(), names.value().end());
  const auto read = [&](const std::string& name) { return notes.contains(name); };
  const auto gone = [&](const auto& note) { return !there.contains(note.first); };
  return !std::all_of(there.begin(), there.end(), read) ||
         std::any_of(notes.begin(), notes.end(), gone) ||
         !not_out(store.journal().held(), notes).empty();
}

std::string exchange_folder(const std::string& store_path) {
  constexpr std::size_t kMostPath = 4096;
  const auto folder = read_whole_file(store_path + kFolderNote, kMostPath);
  return folder.ok() ? folder.value() : std::string();
}

Status keep_exchange_folder(const std::string& store_path, const std::string& folder) {
  if (!folder.empty()) return write_whole_file(store_path + kFolderNote, folder);
  const int why = DiskFiles().remove_file(store_path + kFolderNote);
  if (why == 0 || why == ENOENT) return {};
  return trouble(Medium::Folder, Doing::Writing, why, store_path + kFolderNote);
}

}  // namespace storage
