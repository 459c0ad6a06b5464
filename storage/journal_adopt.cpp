// Merging: the union of what two stores hold, by (device, seq).
#include <fmt/format.h>

#include <map>

#include "storage/journal_impl.h"

namespace storage {
namespace {

enum class Fit { New, Known, Fork, Gap };

// Decides for one event after the other whether it belongs into the store, remembering those of
// this batch that were taken.
class Merge {
 public:
  Merge(sqlite3* db, const Held& held, std::string own)
      : held_(held),
        own_(std::move(own)),
        find_(db, "SELECT prev, hash FROM events WHERE device = ?1 AND seq = ?2") {}

  Fit judge(const Sealed& s) {
    const auto [device, seq] = std::pair{s.record.device, s.record.seq};
    if (const auto same = link(device, seq)) return same->hash == s.hash ? Fit::Known : Fit::Fork;
    const auto before = link(device, seq - 1);
    const auto after = link(device, seq + 1);
    if (before ? before->hash != s.prev : (seq == 1 && s.prev != Hash{})) return Fit::Fork;
    if (after && after->prev != s.hash) return Fit::Fork;
    if (device == own_ && seq > 1 && !before) return Fit::Gap;
    return Fit::New;
  }
  void take(const Sealed& s) { taken_[{s.record.device, s.record.seq}] = {s.prev, s.hash}; }

 private:
  struct Link {
    Hash prev{}, hash{};
  };

  std::optional<Link> link(const std::string& device, std::int64_t seq) {
    const auto it = taken_.find({device, seq});
    if (it != taken_.end()) return it->second;
    const auto here = held_.find(device);
    if (here == held_.end() || !here->second.seqs.holds(seq)) return std::nullopt;
    find_.reset();
    find_.bind(1, device);
    find_.bind(2, seq);
    Link found;
    if (find_.step() != SQLITE_ROW || !find_.hash(0, found.prev) || !find_.hash(1, found.hash)) {
      return std::nullopt;
    }
    return found;
  }

  const Held& held_;
  std::string own_;
  Query find_;
  std::map<std::pair<std::string, std::int64_t>, Link> taken_;
};

Status whole(const Sealed& s) {
  const Status formed = well_formed(s.record);
  if (!formed.ok()) return formed;
  if (seal_holds(s)) return {};
  return {Code::Damaged, fmt::format("Event {} of tablet {} is not as it was written. Nothing was "
                                     "taken; get the bundle again.",
                                     s.record.seq, short_name(s.record.device))};
}

Status gap(const Sealed& s) {
  return {Code::BadInput,
          fmt::format("Event {} of this tablet cannot be taken before event {}. Nothing was taken.",
                      s.record.seq, s.record.seq - 1)};
}

}  // namespace

Result<Adopted> Journal::adopt_all(std::span<const Sealed> events) {
  if (!impl_->store.writable.ok()) return impl_->store.writable;
  Merge merge(impl_->store.db.get(), held(), device());
  Adopted result;
  std::vector<Sealed> fresh;
  for (std::size_t i = 0; i < events.size(); ++i) {
    const Sealed& s = events[i];
    const Status formed = whole(s);
    if (!formed.ok()) return formed;
    const Fit fit = merge.judge(s);
    if (fit == Fit::Gap) return gap(s);
    if (fit == Fit::Known) ++result.known;
    if (fit == Fit::Fork) result.forks.push_back({s.record.device, s.record.seq});
    if (fit != Fit::New) continue;
    merge.take(s);
    fresh.push_back(s);
    result.taken.push_back(i);
  }
  const Status stored = impl_->commit(fresh);
  if (!stored.ok()) return stored;
  result.added = static_cast<std::int64_t>(fresh.size());
  return result;
}

Status Journal::adopt(const Sealed& event) {
  const auto adopted = adopt_all({&event, 1});
  if (!adopted.ok()) return adopted.status();
  if (adopted.value().forks.empty()) return {};
  return {
      Code::Damaged,
      fmt::format("Fork: event {} of tablet {} is here already, or its neighbours are, and they "
                  "differ. A restored or copied tablet? Nothing was overwritten.",
                  event.record.seq, short_name(event.record.device))};
}

Result<Journal> rescue(const Journal& from, const std::string& path, JournalOptions options) {
  if (from.held().contains(options.device)) {
    return {Code::BadInput, "The new journal needs a device id of its own."};
  }
  auto fresh = Journal::open(path, std::move(options));
  if (!fresh.ok()) return fresh;
  if (fresh.value().size() != 0) {
    return {Code::BadInput, fmt::format("The journal {}: it holds events already. Choose another "
                                        "file name.",
                                        path)};
  }
  std::vector<Sealed> events;
  const Status read = from.replay([&](const Sealed& s) { events.push_back(s); });
  if (!read.ok()) return read;
  const auto adopted = fresh.value().adopt_all(events);
  if (!adopted.ok()) return adopted.status();
  return fresh;
}

}  // namespace storage
