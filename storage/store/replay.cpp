#include "storage/store/replay.h"

#include <optional>
#include <utility>

#include "engine/events/entry_refs.h"
#include "storage/store/event_json.h"
#include "storage/store/merge_rules.h"

namespace storage {
namespace {

// What a journal gives to the fold.
class Gathering {
 public:
  Gathering(const Journal& journal, const ForkTrees& trees, const Counting& counting)
      : trees_(trees),
        counting_(counting),
        branches_(branches_in(trees)),
        unbroken_(last_before_gap(journal.held())) {}

  void take(const Sealed& sealed) {
    const Record& r = sealed.record;
    const auto tree = trees_.find(r.device);
    const bool forked = tree != trees_.end();
    const auto side = forked ? tree->second.name_of(r.seq, sealed.hash) : std::nullopt;
    const bool waits = forked ? !side : r.seq > unbroken_.at(r.device);
    if (waits || !counting_.counts(r.device, r.seq, sealed.hash)) return;
    auto event = to_event(r);
    if (!event.ok()) return leave_out(r, side, event.status());
    arrived_.push_back(side ? engine::on_side(std::move(event).value(), *side, branches_)
                            : std::move(event).value());
  }

  Replayed folded(const GuardedFold& fold) {
    Replayed all;
    all.unshown = std::move(unshown_);
    all.farm = fold.all(std::move(arrived_), branches_, all.unshown);
    all.clocks = clocks_of(all.farm);
    return all;
  }

 private:
  void leave_out(const Record& r, const std::optional<engine::DeviceId>& side, const Status& why) {
    const engine::DeviceId own{engine::uuid_from_text(r.device).value_or(engine::UuidBytes{})};
    unshown_.push_back({{side.value_or(own), r.seq}, why.message(), why.code() == Code::TooNew});
  }

  const ForkTrees& trees_;
  const Counting& counting_;
  const engine::Branches branches_;
  const std::map<std::string, std::int64_t> unbroken_;
  engine::Log arrived_;
  std::vector<Unshown> unshown_;
};

// The quick way for one tablet's journal, all of whose entries fit as they stand.
std::optional<Replayed> one_by_one(const Journal& journal, const GuardedFold& fold) {
  Replayed all;
  bool fits = true;
  const Status read = journal.replay_after(0, [&](const Sealed& sealed) {
    if (!fits) return;
    const auto event = to_event(sealed.record);
    fits = event.ok() && fold.recorded(all.farm, event.value()).ok();
    if (fits) all.clocks.take(event.value());
  });
  if (!read.ok() || !fits) return std::nullopt;
  return all;
}

// Of a large one the strikes are looked up first, so that none of them makes it begin again.
bool is_small_and_of_one(const Journal& journal) {
  const std::int64_t large = journal.options().checkpoint_from;
  const KnownEvents& held = journal.held();
  const bool of_one = held.empty() || (held.size() == 1 && held.contains(journal.device()));
  return of_one && !journal.damage() && journal.sides().empty() &&
         (large <= 0 || journal.size() < large);
}

}  // namespace

engine::Clocks clocks_of(const engine::Farm& farm) { return {farm.log, farm.branches}; }

// Of a damaged journal what hangs together from each tablet's first entry on is shown, but for the
// sides of forks, whose tree cannot be asked for.
Result<Replayed> replay(const Journal& journal, const GuardedFold& fold, const Counting& counting) {
  if (is_small_and_of_one(journal))
    if (auto all = one_by_one(journal, fold)) return std::move(*all);
  const auto trees = journal.damage() ? Result<ForkTrees>(ForkTrees{}) : journal.forks();
  if (!trees.ok()) return trees.status();
  Gathering gathering(journal, trees.value(), counting);
  const Status read = journal.damage()
                          ? journal.replay_after(0, [&](const Sealed& s) { gathering.take(s); })
                          : journal.replay([&](const Sealed& s) { gathering.take(s); });
  if (!read.ok()) return read;
  return gathering.folded(fold);
}

}  // namespace storage
