// Where a fold throws, the entry at which it does is found by folding halves of what comes before:
// slow, for a store that would not open otherwise.
#include "storage/store/guarded_fold.h"

#include <fmt/format.h>

#include <algorithm>
#include <new>
#include <set>

#include "engine/words/words.h"

namespace storage {
namespace {

using engine::Code;
using engine::Status;

constexpr int kMostLeftOut = 32;  // one by one; after that all that follow go with the next

std::string thrown_line(const engine::Event& e, const std::string& thrown) {
  return fmt::format("entry {} of device {}: this version cannot work out {} ({})", e.ref.seq,
                     engine::text(e.ref.device), engine::kind(e.body), thrown);
}

// Those of `arrived` that `keep` names, in the order in which they arrived.
engine::Log only(const engine::Log& arrived, const std::set<engine::EntryRef>& keep) {
  engine::Log some;
  arrived.scan(0, [&](std::size_t place, const engine::Entry& e) {
    if (keep.contains(e.event.ref)) some.push_back(arrived.as_written(place));
  });
  return some;
}

engine::Log first_of(const engine::Log& arrived, const std::vector<engine::EntryRef>& order,
                     std::size_t count) {
  return only(arrived, {order.begin(), order.begin() + static_cast<std::ptrdiff_t>(count)});
}

std::vector<engine::EntryRef> common_order(const engine::Log& arrived,
                                           const engine::Branches& branches) {
  std::vector<engine::EntryRef> order;
  engine::in_common_order(arrived, branches).scan(0, [&](std::size_t, const engine::Entry& e) {
    order.push_back(e.event.ref);
  });
  return order;
}

}  // namespace

Status GuardedFold::one(engine::Farm& farm, const engine::Event& e) const {
  return fold(farm, e, engine::why_not);
}

Status GuardedFold::recorded(engine::Farm& farm, const engine::Event& e) const {
  return fold(farm, e, engine::why_not_on_record);
}

Status GuardedFold::fold(engine::Farm& farm, const engine::Event& e, WhyNot why_not) const {
  try {
    if (before_) before_(e);
    const engine::Refusal why = why_not(farm, e);
    if (why != engine::Refusal::None) return {Code::BadInput, refusal_line(e, why)};
    farm = engine::apply(std::move(farm), e);
    return {};
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& thrown) {
    return {Code::Failed, thrown_line(e, thrown.what())};
  }
}

engine::Farm GuardedFold::all(engine::Log arrived, const engine::Branches& branches,
                              std::vector<Unshown>& unshown) const {
  for (int left_out = 0; !arrived.empty(); ++left_out) {
    try {
      engine::Farm farm = together(arrived, branches);
      note_numbers(farm, unshown);
      return farm;
    } catch (const std::bad_alloc&) {
      throw;
    } catch (const std::exception& thrown) {
      leave_out(arrived, branches, thrown.what(), left_out == kMostLeftOut, unshown);
    }
  }
  engine::Farm farm;
  farm.branches = branches;
  note_numbers(farm, unshown);
  return farm;
}

Status GuardedFold::more(engine::Farm& farm, std::vector<engine::Event> fresh) const {
  try {
    if (before_) std::for_each(fresh.begin(), fresh.end(), before_);
    farm = engine::take_together(std::move(farm), std::move(fresh));
    return {};
  } catch (const std::bad_alloc&) {
    throw;
  } catch (const std::exception& thrown) {
    return {Code::Failed, thrown.what()};
  }
}

engine::Farm GuardedFold::together(const engine::Log& arrived,
                                   const engine::Branches& branches) const {
  if (before_) arrived.scan(0, [&](std::size_t, const engine::Entry& e) { before_(e.event); });
  return engine::fold_together(arrived, branches);
}

// `arrived` cannot be folded: takes the entry out at which that ends.
void GuardedFold::leave_out(engine::Log& arrived, const engine::Branches& branches,
                            const std::string& thrown, bool all_behind,
                            std::vector<Unshown>& unshown) const {
  const auto order = common_order(arrived, branches);
  const std::size_t first = most_that_fold(arrived, order, branches);
  const std::size_t end = all_behind ? order.size() : first + 1;
  std::set<engine::EntryRef> keep(order.begin(), order.end());
  for (std::size_t i = first; i < end; ++i) {
    const engine::Event e = arrived.copy(*arrived.find(order[i])).event;
    unshown.push_back({e.ref, thrown_line(e, thrown)});
    keep.erase(e.ref);
  }
  arrived = only(arrived, keep);
}

// So many of the first can be folded, and not one more. All of them cannot.
std::size_t GuardedFold::most_that_fold(const engine::Log& arrived,
                                        const std::vector<engine::EntryRef>& order,
                                        const engine::Branches& branches) const {
  std::size_t folds = 0, throws = order.size();
  while (throws - folds > 1) {
    const std::size_t middle = folds + (throws - folds) / 2;
    try {
      (void)together(first_of(arrived, order, middle), branches);
      folds = middle;
    } catch (const std::bad_alloc&) {
      throw;
    } catch (const std::exception&) {
      throws = middle;
    }
  }
  return folds;
}

std::string refusal_line(const engine::Event& e, engine::Refusal why) {
  return fmt::format("entry {} of device {}: {} is not possible here ({})", e.ref.seq,
                     engine::text(e.ref.device), engine::kind(e.body), engine::name(why));
}

std::string unshown_line(const std::vector<Unshown>& unshown) {
  if (unshown.empty()) return {};
  const std::string more =
      unshown.size() == 1 ? "" : fmt::format("; and {} more", unshown.size() - 1);
  return fmt::format(
      "{} kept but not shown: {}{}",
      unshown.size() == 1 ? "1 entry is" : fmt::format("{} entries are", unshown.size()),
      unshown.front().why, more);
}

void note_numbers(engine::Farm& farm, const std::vector<Unshown>& unshown) {
  for (const Unshown& u : unshown) {
    std::int64_t& last = farm.last_seq[u.entry.device];
    last = std::max(last, u.entry.seq);
  }
}

}  // namespace storage
