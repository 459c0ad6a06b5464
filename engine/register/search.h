// engine/register/search.h -- the rows of the register that a query finds, a piece at a time, the
// newest first.
//
// Kept is where each row comes from; the row itself is built when it is asked for. The book must
// have read the whole log, and both stay as they are: after a new entry, search anew.
#pragma once
#include <map>

#include "engine/register/register.h"

namespace engine {

// Where a row comes from, and what orders it.
struct RowPlace {
  LogIndex::Place place = 0;
  std::size_t of_entry = 0;  // an entry and each of its corrections has a row
  Date date{};
  std::optional<Utc> at;
};

class Search {
 public:
  // What one colony was given of it, of what counts.
  struct Given {
    ColonyId colony;
    std::string name, yard;  // as the last row says
    std::size_t times = 0;
    Mass sum;
    Date last{};
  };

  Search(const Farm& farm, const LogIndex& book, RegisterQuery query);

  // Looks at so many entries; references to entries of the log end.
  void go_on(const Farm& farm, const LogIndex& book, std::size_t most);
  [[nodiscard]] bool whole() const { return next_ == candidates_.size(); }
  [[nodiscard]] const RegisterQuery& query() const { return query_; }
  [[nodiscard]] std::size_t size() const { return rows_.size(); }
  [[nodiscard]] RegisterRow row(const Farm& farm, const LogIndex& book, std::size_t i) const;
  [[nodiscard]] const std::map<ColonyId, Given>& given() const { return given_; }

 private:
  void found(const RegisterRow& row, RowPlace at);

  RegisterQuery query_;
  std::vector<LogIndex::Place> candidates_;  // newest first
  std::size_t next_ = 0;
  std::vector<RowPlace> rows_;
  std::map<ColonyId, Given> given_;
};

}  // namespace engine
