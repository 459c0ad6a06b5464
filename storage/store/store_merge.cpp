// Taking in what other tablets wrote, in portions, and the lines about it.
#include <fmt/format.h>

#include <algorithm>
#include <future>
#include <map>
#include <tuple>
#include <utility>

#include "engine/events/entry_refs.h"
#include "engine/farm/queries.h"
#include "engine/words/wrong_clocks.h"
#include "storage/disk/threads.h"
#include "storage/journal/journal_check.h"
#include "storage/store/event_json.h"
#include "storage/store/merge_rules.h"
#include "storage/store/replay.h"
#include "storage/store/store.h"

namespace storage {
namespace {

void add(LeftOuts& all, LeftOuts& more) {
  for (auto& [device, out] : more) {
    LeftOut& sum = all[device];
    if (sum.count == 0) sum.first = std::move(out.first);
    sum.count += out.count;
  }
}

// Of the clocks whose last wrong entry came in now.
std::vector<std::string> clock_lines(const std::vector<engine::WrongClock>& now,
                                     const std::vector<engine::WrongClock>& before) {
  std::vector<std::string> lines;
  for (const engine::WrongClock& wrong : now) {
    const bool said = std::any_of(before.begin(), before.end(), [&](const auto& b) {
      return b.entry == wrong.entry && b.or_else == wrong.or_else;
    });
    if (!said) lines.push_back(engine::words(wrong));
  }
  return lines;
}

}  // namespace

// What the portions of a merge add up to.
struct Store::Merging {
  Merged done;
  engine::Log arrived;
  LeftOuts left_out;
  std::vector<Fork> forks;
  std::map<std::string, std::int64_t> over_bounds;
  bool waited = false;            // entries that came earlier wait
  bool renewed = false;           // this tablet has another id now
  bool counts_otherwise = false;  // what came earlier, or does no longer
};

// A portion of a merge, looked at before the journal is asked.
struct Store::Part {
  LeftOuts left_out;
  std::vector<engine::Event> parsed;
  Result<VerifiedEvents> sealed;   // the same
  std::vector<std::size_t> taken;  // of these, once the journal has them

  static Part of(std::vector<Sealed> events) {
    LeftOuts left_out;
    std::vector<engine::Event> parsed = take_fit(events, left_out);
    return {std::move(left_out), std::move(parsed), VerifiedEvents::of(std::move(events)), {}};
  }
};

// Durable when it returns.
Status Store::merge_part(Part& part, Merging& merging) {
  add(merging.left_out, part.left_out);
  if (!part.sealed.ok()) return part.sealed.status();
  if (engine::walk_under_way(farm_, device()) != nullptr &&
      journal_.would_renew(part.sealed.value().all()))
    return {Code::Busy,
            "A copy of this tablet's store was written on. End the walk, then take this in again."};
  const auto adopted = journal_.adopt_all(std::move(part.sealed).value());
  if (!adopted.ok()) return adopted.status();
  merging.done.added += adopted.value().added;
  merging.done.known += adopted.value().known;
  part.taken = adopted.value().taken;
  for (const auto& [device, count] : adopted.value().over_bounds)
    merging.over_bounds[device] += count;
  merging.forks.insert(merging.forks.end(), adopted.value().forks.begin(),
                       adopted.value().forks.end());
  merging.renewed = merging.renewed || adopted.value().renewed;
  return {};
}

// While the journal writes one portion other threads look at the next and keep what was new of the
// one before in `arrived`.
Status Store::merge_parts(std::vector<Sealed> events, Merging& merging, const Progress& progress) {
  constexpr std::size_t kPart = 20'000;  // events of one transaction
  const auto part_from = [&](std::size_t from) {
    const auto begin = events.begin() + static_cast<std::ptrdiff_t>(from);
    const auto end =
        events.begin() + static_cast<std::ptrdiff_t>(std::min(from + kPart, events.size()));
    std::vector<Sealed> part(std::make_move_iterator(begin), std::make_move_iterator(end));
    return std::async(kWhereThereIsRoom, Part::of, std::move(part));
  };
  const auto keep = [&merging](Part part) {
    for (const std::size_t i : part.taken) merging.arrived.push_back(std::move(part.parsed[i]));
  };
  std::future<Part> next;
  std::future<void> kept;
  if (!events.empty()) next = part_from(0);
  for (std::size_t from = 0; from < events.size(); from += kPart) {
    if (progress) progress("taking in", from, events.size());
    Part part = next.get();
    if (from + kPart < events.size()) next = part_from(from + kPart);
    if (Status taken = merge_part(part, merging); !taken.ok()) return taken;
    if (kept.valid()) kept.get();
    kept = std::async(kWhereThereIsRoom, keep, std::move(part));
  }
  if (kept.valid()) kept.get();
  return {};
}

// After the journal has taken them: into the farm, by the shortest way.
Status Store::fold_merged(const Merging& merging) {
  const engine::Log& arrived = merging.arrived;
  if (!merging.forks.empty()) return replay_all();
  if (merging.counts_otherwise) return replay_all();
  if (arrived.empty()) return {};
  if (merging.waited) return replay_all();  // what waited stands in the journal alone
  const auto forked = tablets_with_sides(journal_);
  bool of_forked = false;
  if (!forked.empty())
    arrived.scan(0, [&](std::size_t, const engine::Entry& e) {
      of_forked = of_forked || forked.contains(engine::text(e.event.ref.device)) ||
                  engine::names_a_fork(e.event, farm_.branches);
    });
  if (of_forked) return replay_all();
  const auto unbroken = last_before_gap(journal_.held());
  const auto each_unbroken = [&](auto take) {
    arrived.scan(0, [&](std::size_t, const engine::Entry& e) {
      const std::string device = engine::text(e.event.ref.device);
      if (e.event.ref.seq <= std::min(unbroken.at(device), counting_.through(device)))
        take(e.event);
    });
  };
  if (farm_.log.empty() || arrived.size() >= farm_.log.size() / 2) {
    engine::Log all = farm_.log;
    each_unbroken([&](const engine::Event& e) { all.push_back(e); });
    farm_ = fold_.all(std::move(all), engine::Branches(farm_.branches), unshown_);
    clocks_ = clocks_of(farm_);
    return {};
  }
  std::vector<engine::Event> fresh;
  each_unbroken([&](const engine::Event& e) { fresh.push_back(e); });
  if (fresh.empty() || take_in(std::move(fresh)).ok()) return {};
  return replay_all();
}

Status Store::say_forks_and_gaps(const Merging& merging, Merged& done) const {
  const auto trees = journal_.forks();
  if (!trees.ok()) return trees.status();
  for (std::string& line : fork_lines(merging.forks, trees.value()))
    done.lines.push_back(std::move(line));
  if (merging.renewed)
    done.lines.push_back(fmt::format(
        "Entries came under this tablet's own id that its store did not write: it was copied and "
        "written on elsewhere, or an older copy was put back; from now on it writes as tablet {}",
        short_name(journal_.device())));
  auto gaps = gap_lines(journal_.held(), trees.value());
  done.gaps = gaps.size();
  for (std::string& line : gaps) done.lines.push_back(std::move(line));
  return {};
}

// What counts once the portions are in the journal. A bound that moved may be of entries that were
// here before; new ones of a tablet that is held back move none.
Status Store::keep_signatures(const std::vector<Signature>& signatures) {
  if (Status counted = count_anew(); !counted.ok()) return counted;
  const auto rows = rows_to_keep(journal_, counting_, signatures);
  if (rows.empty()) return {};
  if (Status kept = journal_.keep_rows(rows); !kept.ok()) return kept;
  return count_anew();
}

Result<Merged> Store::merge(std::vector<Sealed> events, const Progress& progress,
                            const std::vector<Signature>& signatures) {
  if (Status able = writable(); !able.ok()) return able;
  const auto before = [](const Sealed& a, const Sealed& b) {
    return std::tie(a.record.device, a.record.seq, a.hash) <
           std::tie(b.record.device, b.record.seq, b.hash);
  };
  if (!std::is_sorted(events.begin(), events.end(), before))
    std::sort(events.begin(), events.end(), before);
  Merging merging;
  const std::vector<engine::WrongClock> wrong_before = clocks_.wrong();
  const auto trees = journal_.forks();
  if (!trees.ok()) return trees.status();
  merging.waited = !missing_in(journal_.held(), trees.value()).empty();
  const std::size_t all = events.size(), unshown_before = unshown_.size();
  const Status wrong = merge_parts(std::move(events), merging, progress);
  const Counting counted_before = counting_;
  const Status signatures_kept = keep_signatures(signatures);
  merging.counts_otherwise =
      !counted_before.held_back().empty() && counted_before.other_than(counting_);
  if (progress) progress("folding", all, all);
  const Status folded = fold_merged(merging);
  show_here();
  if (!wrong.ok()) return wrong;
  if (!folded.ok()) return folded;
  if (!signatures_kept.ok()) return signatures_kept;
  Merged done = std::move(merging.done);
  done.lines = lines_of(merging.left_out);
  for (const auto& [device, count] : merging.over_bounds)
    done.lines.push_back(over_bounds_line(device, count));
  if (unshown_.size() > unshown_before) done.lines.push_back(unshown());
  if (Status said = say_forks_and_gaps(merging, done); !said.ok()) return said;
  for (std::string& line : clock_lines(clocks_.wrong(), wrong_before))
    done.lines.push_back(std::move(line));
  done.held = counting_.held_back();
  if (done.added > 0) keep_checkpoint();
  return done;
}

}  // namespace storage
