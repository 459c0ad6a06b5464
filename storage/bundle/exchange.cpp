#include "storage/bundle/exchange.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <iterator>
#include <optional>
#include <set>

#include "engine/words/words.h"
#include "storage/bundle/bag.h"
#include "storage/bundle/bag_read.h"
#include "storage/bundle/bundle_signatures.h"
#include "storage/bundle/exchange_notes.h"
#include "storage/disk/media_errors.h"
#include "storage/disk/paths.h"
#include "storage/disk/whole_file.h"
#include "storage/journal/events_jsonl.h"

namespace storage {
namespace {

constexpr std::size_t kMostBundles = 100'000;  // of one folder
constexpr std::size_t kMostNotes = 64u << 20;  // bytes
constexpr std::size_t kEntriesOfOne = 25'000;  // of a new bundle
constexpr std::size_t kAtOnce = 50'000;        // entries merged together
const char* const kEventsPath = "/data/events.jsonl";
const char* const kFolderNote = ".exchange-folder";

ExchangeNotes read_notes(const std::string& path) {
  const auto text = read_own_file(path, kMostNotes);
  return text.ok() ? parse_exchange_notes(text.value()) : ExchangeNotes{};
}

// Names of the bundles that lie in the folder itself, which is held from now on. What is being
// written (".part-") has no bundle's name yet.
Result<std::vector<std::string>> bundles_in(Files& files, const std::string& folder) {
  std::vector<std::string> names, bundles;
  const int held = files.hold(folder);
  if (held == ENOENT || held == ENOTDIR)
    return {Code::NotFound, fmt::format("{}: no such folder", folder)};
  if (held != 0) return trouble(Medium::Folder, Doing::Reading, held, folder);
  if (const int err = files.list(folder, names))
    return trouble(Medium::Folder, Doing::Reading, err, folder);
  for (std::string& name : names)
    if (is_bundle_name(name) && kind_of(files, folder + "/" + name) == FileKind::Folder &&
        bundles.size() < kMostBundles)
      bundles.push_back(std::move(name));
  return bundles;
}

// What a whole bundle brings.
struct Brought {
  std::vector<Sealed> events;
  std::vector<Signature> signatures;
  std::vector<std::string> lines;
};

// False: the file is there and cannot be read.
bool read_signatures_of(Files& files, const std::string& folder, const std::string& name,
                        Brought& all) {
  const std::string path = folder + "/data/" + kSignaturesFile;
  if (kind_of(files, path) != FileKind::Regular) return true;
  std::string text;
  bool too_big = false;
  if (read_text(files, path, kLargestSignatures, text, too_big) != 0 || too_big) return false;
  all.signatures = keep_signed(name, read_signatures(text), all.events, all.lines);
  return true;
}

// Of a bundle that is whole; nothing while it is not.
std::optional<Brought> brought_by(Files& files, const std::string& parent,
                                  const std::string& name) {
  const std::string folder = parent + "/" + name;
  const auto report = check_bag(files, folder);
  if (!report.ok() || !report.value().whole()) return std::nullopt;
  if (kind_of(files, folder + kEventsPath) != FileKind::Regular) return std::nullopt;
  EventLines lines;
  const int err = read_pieces(files, folder + kEventsPath, [&](std::string_view piece) {
    lines.take(piece);
    return true;
  });
  lines.end();
  if (err != 0 || lines.bad() > 0) return std::nullopt;
  Brought all{std::move(lines.events()), {}, {}};
  if (!read_signatures_of(files, folder, name, all)) return std::nullopt;
  return all;
}

// What a bundle's entry is known by; whether it is one of another side of a fork is told only when
// it was taken in.
struct Named {
  std::string device;
  std::int64_t seq = 0;
  Hash hash{};
};

std::vector<Named> named(const std::vector<Sealed>& events) {
  std::vector<Named> all;
  all.reserve(events.size());
  for (const Sealed& s : events) all.push_back({s.record.device, s.record.seq, s.hash});
  return all;
}

std::set<Hash> sides_in(const Journal& journal) {
  std::set<Hash> sides;
  for (const ForkRow& side : journal.sides()) sides.insert(side.sealed.hash);
  return sides;
}

BundleNote note_of(const std::vector<Named>& events, const std::set<Hash>& sides) {
  std::map<std::string, std::vector<std::int64_t>> all;
  BundleNote note;
  for (const Named& e : events)
    if (sides.contains(e.hash))
      note.sides.insert(e.hash);
    else
      all[e.device].push_back(e.seq);
  for (auto& [device, numbers] : all) {
    std::sort(numbers.begin(), numbers.end());
    for (const std::int64_t n : numbers) note.numbers[device].add(n);
  }
  return note;
}

// What the journal holds and the folder does not.
struct NotOut {
  SeqRangesByDevice numbers;
  std::set<Hash> sides;
  [[nodiscard]] bool empty() const { return numbers.empty() && sides.empty(); }
  [[nodiscard]] bool holds(const Sealed& s, bool side) const {
    if (side) return sides.contains(s.hash);
    const auto at = numbers.find(s.record.device);
    return at != numbers.end() && at->second.holds(s.record.seq);
  }
};

NotOut not_out(const Journal& journal, const ExchangeNotes& notes) {
  SeqRangesByDevice out;
  NotOut left{{}, sides_in(journal)};
  for (const auto& [name, note] : notes) {
    for (const auto& [device, seqs] : note.numbers)
      for (const SeqRange& range : seqs.ranges()) out[device].add(range);
    for (const Hash& hash : note.sides) left.sides.erase(hash);
  }
  for (const auto& [device, mine] : journal.held())
    if (SeqRanges rest = mine.seqs.without(out[device]); !rest.empty())
      left.numbers[device] = std::move(rest);
  return left;
}

bool is_read(const ExchangeNotes& notes, const std::string& name) {
  const auto note = notes.find(name);
  return note != notes.end() && !note->second.refused;
}

// It was not whole, and its files are as they were then.
bool was_refused(const ExchangeNotes& notes, const std::string& name, const Hash& now) {
  const auto note = notes.find(name);
  return note != notes.end() && note->second.refused == now;
}

const Status kStoreGone{Code::Gone, "the store was closed meanwhile"};

// A portion of what no bundle holds yet, and what is needed to write it down.
struct Portion {
  std::vector<Sealed> entries;
  BundleNote note;
  std::string device_short;
  std::vector<Signature> signatures;
};

// What follows runs on the store's thread, while the thread of the pass waits.

Portion next_portion(const Store& store, const ExchangeNotes& notes, Status& wrong) {
  Portion portion{{}, {}, engine::short_device(store.device()), {}};
  const NotOut left = not_out(store.journal(), notes);
  if (left.empty()) return portion;
  const auto sides = sides_in(store.journal());
  wrong = store.journal().replay([&](const Sealed& s) {
    if (portion.entries.size() < kEntriesOfOne && left.holds(s, sides.contains(s.hash)))
      portion.entries.push_back(s);
  });
  portion.note = note_of(named(portion.entries), sides);
  portion.signatures = store.signatures_for(portion.entries);
  return portion;
}

struct MergedPart {
  Result<Merged> merged;
  std::set<Hash> sides;
};

MergedPart merge_part(Store& store, Brought& brought, const Progress& progress) {
  auto merged = store.merge(std::move(brought.events), progress, brought.signatures);
  return {std::move(merged), sides_in(store.journal())};
}

class Pass {
 public:
  Pass(const OnStore& on_store, Files& files, const ExchangePlace& place, const Progress& progress)
      : on_store_(on_store), files_(files), place_(place), progress_(progress) {}

  Status run() {
    Status able;
    if (!on_store_([&](Store& store) {
          able = store.writable();
          notes_path_ = exchange_notes_path(store.journal().path());
        }))
      return kStoreGone;
    if (!able.ok()) return able;
    notes_ = read_notes(notes_path_);
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
      if (is_read(notes_, names[i])) continue;
      if (place_.stopped()) break;
      const Hash now = bag_fingerprint(files_, place_.folder + "/" + names[i]);
      if (was_refused(notes_, names[i], now)) {
        done_.waiting.push_back(names[i]);
        continue;
      }
      if (progress_) progress_("reading bundles", i, names.size());
      auto brought = brought_by(files_, place_.folder, names[i]);
      if (!brought) {
        done_.waiting.push_back(names[i]);
        notes_[names[i]] = {{}, {}, now};
        changed_ = true;
        continue;
      }
      fresh_[names[i]] = named(brought->events);
      append(pending_.events, brought->events);
      append(pending_.signatures, brought->signatures);
      append(pending_.lines, brought->lines);
      if (pending_.events.size() < kAtOnce) continue;
      if (Status merged = merge_pending(); !merged.ok()) return merged;
    }
    return merge_pending();
  }

  // What the folder holds is noted only when the journal holds it too.
  Status merge_pending() {
    if (fresh_.empty()) return {};
    std::optional<MergedPart> part;
    if (!on_store_([&](Store& store) { part = merge_part(store, pending_, progress_); }))
      return kStoreGone;
    auto said = std::move(pending_.lines);
    pending_ = {};
    if (!part->merged.ok()) return part->merged.status();
    done_.taken += fresh_.size();
    done_.entries += part->merged.value().added;
    append(said, part->merged.value().lines);
    part->merged.value().lines = std::move(said);
    add_lines(part->merged.value());
    for (const auto& [name, events] : fresh_) notes_[name] = note_of(events, part->sides);
    fresh_.clear();
    changed_ = true;
    return {};
  }

  template <class T>
  static void append(std::vector<T>& all, std::vector<T>& more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
  }

  // Of several batches all is said; a gap only if it is open after the last of them.
  void add_lines(Merged& merged) {
    done_.lines.resize(done_.lines.size() - gaps_);
    gaps_ = merged.gaps;
    std::move(merged.lines.begin(), merged.lines.end(), std::back_inserter(done_.lines));
  }

  Status put_out() {
    while (!place_.stopped()) {
      Status wrong;
      Portion portion;
      if (!on_store_([&](Store& store) { portion = next_portion(store, notes_, wrong); }))
        return kStoreGone;
      if (!wrong.ok() || portion.entries.empty()) return wrong;
      if (Status put = put_one(portion); !put.ok()) return put;
    }
    return {};
  }

  Status put_one(const Portion& portion) {
    BagRequest request;
    request.parent = place_.folder;
    request.device_short = portion.device_short;
    request.day = request.bagging_date = place_.day;
    request.payload = {{"events.jsonl", events_jsonl(portion.entries)}};
    if (!portion.signatures.empty())
      request.payload.push_back({kSignaturesFile, signatures_text(portion.signatures)});
    const auto written = write_bag(files_, request);
    if (!written.ok()) return written.status();
    notes_[written.value().name] = portion.note;
    changed_ = true;
    done_.put.push_back(written.value().name);
    return {};
  }

  Status keep_notes() {
    if (!changed_) return {};
    return write_whole_file(notes_path_, to_text(notes_), PartFile::Readers::Owner);
  }

  const OnStore& on_store_;
  Files& files_;
  const ExchangePlace& place_;
  const Progress& progress_;
  std::string notes_path_;
  ExchangeNotes notes_;
  std::map<std::string, std::vector<Named>> fresh_;  // of the bundles whose entries are pending
  Brought pending_;                                  // read, not merged yet
  bool changed_ = false;
  std::size_t gaps_ = 0;  // the last lines of done_
  Exchanged done_;
};

}  // namespace

Result<Exchanged> exchange(const OnStore& on_store, Files& files, const ExchangePlace& place,
                           const Progress& progress) {
  Pass pass(on_store, files, place, progress);
  if (Status done = pass.run(); !done.ok()) return done;
  return pass.take();
}

Result<Exchanged> exchange(Store& store, const ExchangePlace& place, const Progress& progress) {
  DiskFiles files;
  return exchange([&](const auto& work) { return work(store), true; }, files, place, progress);
}

Result<bool> exchange_waits(const OnStore& on_store, Files& files, const std::string& folder) {
  const auto names = bundles_in(files, folder);
  if (!names.ok()) return names.status();
  ExchangeNotes notes;
  bool to_put = false;
  if (!on_store([&](Store& store) {
        notes = read_notes(exchange_notes_path(store.journal().path()));
        to_put = !not_out(store.journal(), notes).empty();
      }))
    return kStoreGone;
  const std::set<std::string> there(names.value().begin(), names.value().end());
  const auto read = [&](const std::string& name) {
    return is_read(notes, name) ||
           was_refused(notes, name, bag_fingerprint(files, folder + "/" + name));
  };
  const auto gone = [&](const auto& note) { return !there.contains(note.first); };
  return to_put || !std::all_of(there.begin(), there.end(), read) ||
         std::any_of(notes.begin(), notes.end(), gone);
}

Result<bool> exchange_waits(Store& store, const std::string& folder) {
  DiskFiles files;
  return exchange_waits([&](const auto& work) { return work(store), true; }, files, folder);
}

std::string exchange_folder(const std::string& store_path) {
  constexpr std::size_t kMostPath = 4096;
  const auto folder = read_own_file(store_path + kFolderNote, kMostPath);
  return folder.ok() ? folder.value() : std::string();
}

Status keep_exchange_folder(const std::string& store_path, const std::string& folder) {
  if (!folder.empty())
    return write_whole_file(store_path + kFolderNote, folder, PartFile::Readers::Owner);
  const int why = DiskFiles().remove_file(store_path + kFolderNote);
  if (why == 0 || why == ENOENT) return {};
  return trouble(Medium::Folder, Doing::Writing, why, store_path + kFolderNote);
}

}  // namespace storage
