// storage/journal/verified_events.h -- events that were found to be as they were written: what a
// journal takes in from elsewhere.
#pragma once
#include <utility>
#include <vector>

#include "storage/journal/record.h"

namespace storage {

class VerifiedEvents {
 public:
  // Each is looked at by itself (well_formed, seal_holds). BadInput or Damaged: one is not whole.
  [[nodiscard]] static Result<VerifiedEvents> of(std::vector<Sealed> events);

  [[nodiscard]] const std::vector<Sealed>& all() const { return events_; }
  [[nodiscard]] std::vector<Sealed> take() && { return std::move(events_); }

 private:
  explicit VerifiedEvents(std::vector<Sealed> events) : events_(std::move(events)) {}

  std::vector<Sealed> events_;
};

}  // namespace storage
