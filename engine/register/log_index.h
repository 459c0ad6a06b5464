// engine/register/log_index.h -- where in a log of a million entries to look: by day, by colony, by
// lot.
//
// It is read a piece at a time, the newest entries first, so that no frame waits for it; after that
// it follows the log. Places are those in Farm::log. Whether an entry counts is not kept here: that
// changes with every strike, and is asked of the farm.
#pragma once
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

class LogIndex {
 public:
  using Place = std::uint32_t;
  using Places = std::vector<Place>;

  static constexpr std::size_t kPiece = 500;  // entries, for a frame: less than a millisecond

  // Reads what was written since, and then up to `most` of the entries that are still unread.
  // Begins anew when the log is another one or got entries before its end.
  void read(const Farm& farm, std::size_t most);
  void read_all(const Farm& farm) { read(farm, farm.log.size()); }
  [[nodiscard]] bool whole() const { return unread_ == 0; }
  [[nodiscard]] std::size_t entries() const { return size_ - unread_; }  // read so far

  // Each place once, the newest first. A corrected entry is listed under its own words and under
  // those of its corrections; a correction under what it corrects.
  [[nodiscard]] Places of_day(Date day) const;  // local, each in the zone it was written in
  [[nodiscard]] Places of_colony(ColonyId colony) const;
  [[nodiscard]] Places notes_of(YardId yard) const;                // written about the yard itself
  [[nodiscard]] Places given_from(LotId lot) const;                // vapor, as it was written down
  [[nodiscard]] Places given_from(const std::string& code) const;  // other treatments
  // Of every kind that the register has rows of, the newest first.
  [[nodiscard]] const std::deque<Place>& treatments() const { return treatments_; }

  // The nearest day with entries before or after that one.
  [[nodiscard]] std::optional<Date> day_before(Date day) const;
  [[nodiscard]] std::optional<Date> day_after(Date day) const;
  [[nodiscard]] std::vector<std::string> codes() const;  // of other treatments, each once

  // The first entry that opened the walk.
  [[nodiscard]] std::optional<Place> opening(WalkId walk) const;
  [[nodiscard]] Places passes(WalkId walk, ColonyId colony) const;
  [[nodiscard]] Places comings(ColonyId colony) const;  // added or moved
  [[nodiscard]] Places setups() const;

 private:
  using Day = std::chrono::sys_days;
  void take(const Farm& farm, Place place);
  void list(Place place, const Body& body);

  std::size_t size_ = 0;    // of the log, as far as it is followed
  std::size_t unread_ = 0;  // so many of its first entries
  EntryRef last_;           // of the entry at size_ - 1
  Joins joins_;             // by which the entries were read
  std::map<Day, Places> days_;
  std::map<ColonyId, Places> colonies_;
  std::map<YardId, Places> notes_;
  std::map<LotId, Places> lots_;
  std::map<std::string, Places> codes_;
  std::map<WalkId, Place> openings_;
  std::map<std::pair<WalkId, ColonyId>, Places> passes_;
  std::map<ColonyId, Places> comings_;
  Places setups_;
  std::deque<Place> treatments_;
};

}  // namespace engine
