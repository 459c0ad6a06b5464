// storage/store/guarded_fold.h -- the engine's folds, none of which ends this program.
//
// An entry that the engine cannot work out is a mistake in the engine; the keeper in a yard must
// not pay for it with a store that does not open. So every fold of entries goes through here: an
// exception becomes a Status, or an entry that is kept in the journal, left out of the farm and
// named. Memory that is out is no matter of an entry: std::bad_alloc goes on.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "engine/farm/farm.h"
#include "engine/farm/merge_order.h"

namespace storage {

// An entry that is kept in the journal and shown nowhere.
struct Unshown {
  engine::EntryRef entry;
  std::string why;     // one line with the entry's number, tablet and kind
  bool newer = false;  // a later version wrote it
};

class GuardedFold {
 public:
  // Called with each entry before it is folded; may throw. For tests.
  using Before = std::function<void(const engine::Event&)>;
  explicit GuardedFold(Before before = {}) : before_(std::move(before)) {}

  // The farm after one device's next event. BadInput: it does not fit; Failed: the engine could not
  // work it out. `farm` is worth nothing then.
  [[nodiscard]] engine::Status one(engine::Farm& farm, const engine::Event& event) const;
  // The same of an event that is on record: a strike that an earlier version let pass holds.
  [[nodiscard]] engine::Status recorded(engine::Farm& farm, const engine::Event& event) const;

  // As engine::fold_together. Entries at which it throws are left out and added to `unshown`: each
  // the first in the common order without which all before it can be folded. That takes some dozens
  // of folds for each.
  [[nodiscard]] engine::Farm all(engine::Log arrived, const engine::Branches& branches,
                                 std::vector<Unshown>& unshown) const;

  // As engine::take_together; Failed where it throws. `farm` is worth nothing then.
  [[nodiscard]] engine::Status more(engine::Farm& farm, std::vector<engine::Event> fresh) const;

 private:
  using WhyNot = engine::Refusal (*)(const engine::Farm&, const engine::Event&);
  engine::Status fold(engine::Farm& farm, const engine::Event& event, WhyNot why_not) const;
  engine::Farm together(const engine::Log& arrived, const engine::Branches& branches) const;
  void leave_out(engine::Log& arrived, const engine::Branches& branches, const std::string& thrown,
                 bool all_behind, std::vector<Unshown>& unshown) const;
  std::size_t most_that_fold(const engine::Log& arrived, const std::vector<engine::EntryRef>& order,
                             const engine::Branches& branches) const;

  Before before_;
};

// Why an event cannot be taken, in one line.
[[nodiscard]] std::string refusal_line(const engine::Event& event, engine::Refusal why);

// "3 entries are kept but not shown: ..., and 2 more"; empty: there are none.
[[nodiscard]] std::string unshown_line(const std::vector<Unshown>& unshown);

// Their numbers are taken all the same.
void note_numbers(engine::Farm& farm, const std::vector<Unshown>& unshown);

}  // namespace storage
