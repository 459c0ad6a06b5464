// storage/sheets/sheet_farm.h -- the farm while a spreadsheet is taken in: finds things by name,
// collects the events, and holds each event to what the engine allows.
//
// Names are compared without regard to case and to white space around and between words.
#pragma once
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>
#include <vector>

#include "engine/farm/farm.h"

namespace storage {

class SheetFarm {
 public:
  SheetFarm(engine::Farm farm, engine::Date today);

  // Things of one name. None, one, or several (two tablets made one each).
  struct Yards {
    std::vector<engine::YardId> there, lost;
  };
  struct Colonies {
    std::vector<engine::ColonyId> there, lost;
  };
  [[nodiscard]] Yards yards(std::string_view name) const;
  [[nodiscard]] Colonies colonies(engine::YardId yard, std::string_view name) const;
  [[nodiscard]] Colonies colonies(std::string_view name) const;  // of any yard

  [[nodiscard]] const engine::Yard& yard(engine::YardId id) const { return farm_.yards.at(id); }
  [[nodiscard]] const engine::Colony& colony(engine::ColonyId id) const {
    return farm_.colonies.at(id);
  }

  using CountKey = std::tuple<engine::ColonyId, engine::Date, engine::CountMethod>;
  [[nodiscard]] const engine::CountTaken* count(const CountKey& key) const;
  // The reason a count with these very numbers was taken back; nullptr: it was not.
  [[nodiscard]] const std::string* struck(const engine::CountTaken& taken) const;

  // Ids that follow from the names, the same on every tablet (named_id.h): of the lines "duskwalk
  // sheet yard", the yard's name and a number; of "duskwalk sheet colony", the yard's name, the
  // colony's and a number. The names are folded (utf8.h); the number is 1, or more where what has
  // that id was called otherwise since, or was moved.
  [[nodiscard]] engine::YardId id_of_new_yard(std::string_view name) const;
  [[nodiscard]] engine::ColonyId id_of_new_colony(engine::YardId in, std::string_view name) const;
  // Of "duskwalk sheet count", the names of yard and colony, the day and the method.
  [[nodiscard]] engine::CountId id_of(const engine::CountTaken& taken) const;

  // Adds the event, or says why the engine refuses it.
  [[nodiscard]] engine::Refusal put(engine::Body body);

  [[nodiscard]] std::vector<engine::Body> events() && { return std::move(events_); }

 private:
  void index_names();
  void index_counts();
  void index(const engine::Body& body);
  void index_colony(engine::ColonyId id, engine::YardId in, std::string_view name);
  [[nodiscard]] Colonies there_and_lost(const std::vector<engine::ColonyId>& ids) const;

  engine::Farm farm_;
  engine::Stamp stamp_;
  std::vector<engine::Body> events_;
  std::unordered_map<std::string, std::vector<engine::YardId>> yards_;
  std::unordered_map<std::string, std::vector<engine::ColonyId>> colonies_;
  std::map<std::pair<engine::YardId, std::string>, std::vector<engine::ColonyId>> in_yards_;
  std::map<CountKey, engine::CountTaken> counts_;
  std::map<CountKey, std::pair<engine::CountTaken, std::string>> struck_;
};

[[nodiscard]] bool same_numbers(const engine::CountTaken& a, const engine::CountTaken& b);

}  // namespace storage
