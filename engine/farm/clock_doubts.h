// engine/farm/clock_doubts.h -- which wall clocks are not believed (the rules: common_clock.h).
// Inside engine/farm only.
#pragma once
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "engine/farm/clock_lines.h"
#include "engine/farm/common_clock.h"

namespace engine {

class ClockDoubts {
 public:
  // `lines` are closed, and outlive it.
  explicit ClockDoubts(ClockLines& lines) : all_(lines) {}

  // Puts back or takes away each wall clock that is not believed; whose they are, by tablet.
  std::vector<WrongClock> settle();
  // Whether any two clocks contradict each other.
  [[nodiscard]] bool any() const { return any_; }

 private:
  // A tablet has read a line up to there, and its own clock said so then.
  struct Look {
    std::size_t end = 0;
    std::int64_t wall = 0;
    std::size_t line = 0, item = 0;  // the reading
  };
  // All looks of one tablet at one line, by how far they go.
  struct Reader {
    DeviceId tablet;
    std::vector<Look> looks{};
    std::size_t next = 0;  // the first that has not been passed
  };
  using Readers = std::map<DeviceId, Reader>;
  // What was said of one entry's wall clock.
  struct Said {
    std::set<DeviceId> earlier, then;   // tablets
    std::vector<const Look*> behind{};  // those that say earlier
  };
  // The last wall clock of a line that was not believed.
  struct Off {
    std::int64_t wall = 0;
    std::optional<std::int64_t> ahead;  // by how much, rather too much: it must not win by that
    std::int64_t about = 0;             // what was the time about then
  };

  void note_impossible();
  void note_looks();
  void note_look(std::size_t line, const Look& look);
  void note_alike();
  [[nodiscard]] bool contradicted(std::size_t line) const;
  void hear(std::size_t line);
  [[nodiscard]] Said said_of(std::size_t line, std::size_t item);
  static void put_back(ClockItem& item, Off& off);
  [[nodiscard]] Off off_by(const ClockLine& line, const ClockItem& item, const Said& said) const;
  [[nodiscard]] std::optional<std::int64_t> most_ahead(const ClockItem& item) const;
  void note_wrong(const ClockLine& line, const ClockItem& item, std::int64_t wall);
  void note_behind(const ClockLine& line, const ClockItem& item, const Said& said);
  [[nodiscard]] std::vector<WrongClock> found() const;

  ClockLines& all_;
  std::vector<Readers> readers_;                      // of each line
  std::map<std::int32_t, std::set<DeviceId>> alike_;  // by reading
  std::map<DeviceId, WrongClock> wrong_, open_;
  std::set<EntryRef> noted_;
  bool any_ = false;
};

}  // namespace engine
