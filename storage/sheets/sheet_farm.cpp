#include "storage/sheets/sheet_farm.h"

#include "storage/text/named_id.h"
#include "storage/text/utf8.h"

namespace storage {
namespace {

// Stands for the device that will write the events: only its numbering is needed here.
constexpr engine::DeviceId kNobody{{0xff, 0xff}};

SheetFarm::CountKey key_of(const engine::CountTaken& c) { return {c.colony, c.on, c.method}; }

// The first id of these names that nothing in the farm has.
template <class Things>
typename Things::key_type first_free(const Things& there, const engine::Joins& joins,
                                     std::vector<std::string_view> lines) {
  for (int n = 1;; ++n) {
    const std::string number = std::to_string(n);
    lines.emplace_back(number);
    const typename Things::key_type id{named_id(lines)};
    if (!there.contains(joins.of(id))) return id;
    lines.pop_back();
  }
}

}  // namespace

bool same_numbers(const engine::CountTaken& a, const engine::CountTaken& b) {
  return a.mites == b.mites && a.bees == b.bees && a.hours == b.hours;
}

SheetFarm::SheetFarm(engine::Farm farm, engine::Date today) : farm_(std::move(farm)) {
  stamp_.at = engine::days(today);
  index_names();
  index_counts();
}

void SheetFarm::index_names() {
  for (const auto& [id, yard] : farm_.yards) yards_[folded(yard.name)].push_back(id);
  for (const auto& [id, colony] : farm_.colonies) index_colony(id, colony.yard, colony.name);
}

void SheetFarm::index_colony(engine::ColonyId id, engine::YardId in, std::string_view name) {
  std::string text = folded(name);
  in_yards_[{in, text}].push_back(id);
  colonies_[std::move(text)].push_back(id);
}

SheetFarm::Colonies SheetFarm::there_and_lost(const std::vector<engine::ColonyId>& ids) const {
  Colonies found;
  for (const engine::ColonyId id : ids) (colony(id).lost ? found.lost : found.there).push_back(id);
  return found;
}

void SheetFarm::index_counts() {
  for (const engine::Count& count : farm_.counts)
    counts_.try_emplace(key_of(count.taken), count.taken);
  for (const std::size_t place : farm_.log.marked()) {
    const engine::Entry entry = farm_.log.copy(place);
    const auto* taken = std::get_if<engine::CountTaken>(&entry.event.body);
    if (taken && entry.struck) struck_[key_of(*taken)] = {*taken, entry.struck->reason};
  }
}

SheetFarm::Yards SheetFarm::yards(std::string_view name) const {
  Yards found;
  const auto at = yards_.find(folded(name));
  if (at == yards_.end()) return found;
  for (const engine::YardId id : at->second)
    (yard(id).lost ? found.lost : found.there).push_back(id);
  return found;
}

SheetFarm::Colonies SheetFarm::colonies(std::string_view name) const {
  const auto at = colonies_.find(folded(name));
  return at == colonies_.end() ? Colonies{} : there_and_lost(at->second);
}

// A name that stands in every yard ("1") must not be looked for in all of them.
SheetFarm::Colonies SheetFarm::colonies(engine::YardId in, std::string_view name) const {
  const auto at = in_yards_.find({in, folded(name)});
  return at == in_yards_.end() ? Colonies{} : there_and_lost(at->second);
}

const engine::CountTaken* SheetFarm::count(const CountKey& key) const {
  const auto at = counts_.find(key);
  return at == counts_.end() ? nullptr : &at->second;
}

const std::string* SheetFarm::struck(const engine::CountTaken& taken) const {
  const auto at = struck_.find(key_of(taken));
  if (at == struck_.end() || !same_numbers(at->second.first, taken)) return nullptr;
  return &at->second.second;
}

engine::YardId SheetFarm::id_of_new_yard(std::string_view name) const {
  const std::string folded_name = folded(name);
  return first_free(farm_.yards, farm_.log.joins(), {"duskwalk sheet yard", folded_name});
}

engine::ColonyId SheetFarm::id_of_new_colony(engine::YardId in, std::string_view name) const {
  const std::string folded_yard = folded(yard(in).name), folded_name = folded(name);
  return first_free(farm_.colonies, farm_.log.joins(),
                    {"duskwalk sheet colony", folded_yard, folded_name});
}

engine::CountId SheetFarm::id_of(const engine::CountTaken& taken) const {
  const engine::Colony& counted = colony(taken.colony);
  const std::string folded_yard = folded(yard(counted.yard).name);
  return {named_id({"duskwalk sheet count", folded_yard, folded(counted.name),
                    engine::iso_date(taken.on), engine::name(taken.method)})};
}

void SheetFarm::index(const engine::Body& body) {
  if (const auto* y = std::get_if<engine::YardAdded>(&body))
    yards_[folded(y->name)].push_back(y->yard);
  if (const auto* c = std::get_if<engine::ColonyAdded>(&body))
    index_colony(c->colony, c->yard, c->name);
  if (const auto* c = std::get_if<engine::CountTaken>(&body)) counts_.try_emplace(key_of(*c), *c);
}

engine::Refusal SheetFarm::put(engine::Body body) {
  const auto seq = static_cast<std::int64_t>(events_.size()) + 1;
  const engine::Event event{{kNobody, seq}, stamp_, body};
  const engine::Refusal why = engine::why_not(farm_, event);
  if (why != engine::Refusal::None) return why;
  farm_ = engine::apply(std::move(farm_), event);
  index(body);
  events_.push_back(std::move(body));
  return why;
}

}  // namespace storage
