#include "engine/register/register.h"

#include <algorithm>
#include <set>

#include "engine/farm/queries.h"
#include "engine/method/obey.h"
#include "engine/register/corrections_of.h"
#include "engine/register/search.h"
#include "engine/walk/timers.h"
#include "engine/words/lookup.h"

namespace engine {
namespace {

// Builds the rows of one entry after another.
class Reader {
 public:
  Reader(const Farm& farm, const LogIndex& book) : farm_(farm), book_(book) {}

  // Those of the entry at that place, its corrections' after its own.
  std::vector<RegisterRow> rows_of(LogIndex::Place place) {
    rows_.clear();
    place_ = place;
    each_said(farm_, farm_.log.copy(place),
              [this](const Said& said, const Body& body) { add(said, body); });
    return std::move(rows_);
  }

 private:
  void add(const Said& e, const Body& body);
  RegisterRow begin_row(const Said& e, ColonyId colony) const;
  RegisterRow begin_walk_row(const Said& e, WalkId walk, ColonyId colony);
  void add_label(RegisterRow& row, const LabelRules& rules) const;
  void add_lot(RegisterRow& row, const std::optional<LotId>& id) const;
  void add_setting(const Said& e, const VaporizerSet& set);
  void add_course_of(RegisterRow& row, const Walk& walk, const Stop& stop, std::size_t at) const;
  [[nodiscard]] bool belongs(const Stop& stop, std::size_t i, const EntryRef& what) const;
  void add_pass(const Said& e, const ColonyPassedOver& pass);
  void add_not_reached(const Said& e, const WalkOpened& opened);
  void add_late(const Said& e, const EnteredLate& late);
  void add_other(const Said& e, const OtherTreatmentGiven& given);
  [[nodiscard]] const Walk* walk_of(WalkId id) const {
    const auto at = farm_.walks.find(id);
    return at == farm_.walks.end() ? nullptr : &at->second;
  }
  [[nodiscard]] const WalkOpened* opening_of(WalkId walk);
  [[nodiscard]] bool was_last(const EntryRef& entry, const ColonyPassedOver& pass) const;
  [[nodiscard]] std::optional<YardId> stood_in(ColonyId colony) const;
  template <class Field>
  [[nodiscard]] std::string setup_then(DeviceId tablet, Field field) const;

  const Farm& farm_;
  const LogIndex& book_;
  LogIndex::Place place_ = 0;         // of the entry whose rows are built
  std::optional<WalkOpened> opened_;  // the last one asked for: rows of a walk come together
  std::vector<RegisterRow> rows_;
};

const WalkOpened* Reader::opening_of(WalkId walk) {
  if (opened_ && opened_->walk == walk) return &*opened_;
  const auto place = book_.opening(walk);
  if (!place) return nullptr;
  opened_ = std::get<WalkOpened>(farm_.log.copy(*place).event.body);
  return &*opened_;
}

// Whether no later entry passed the colony over on that walk.
bool Reader::was_last(const EntryRef& entry, const ColonyPassedOver& pass) const {
  for (const LogIndex::Place place : book_.passes(pass.walk, pass.colony)) {
    const Entry e = farm_.log.copy(place);
    const auto said = holds<ColonyPassedOver>(farm_, e);
    if (said && said->walk == pass.walk && said->colony == pass.colony) return e.event.ref == entry;
  }
  return false;
}

// Where the colony stood when the entry was written.
std::optional<YardId> Reader::stood_in(ColonyId colony) const {
  for (const LogIndex::Place place : book_.comings(colony)) {
    const Entry e = farm_.log.copy(place);
    if (place > place_ || !e.counts()) continue;
    if (const auto* added = std::get_if<ColonyAdded>(&e.event.body)) return added->yard;
    if (const auto* moved = std::get_if<ColonyMoved>(&e.event.body)) return moved->to;
  }
  return std::nullopt;
}

// What the setup of the tablet said when the entry was written there.
template <class Field>
std::string Reader::setup_then(DeviceId tablet, Field field) const {
  for (const LogIndex::Place place : book_.setups()) {
    const Entry e = farm_.log.copy(place);
    if (place > place_ || !e.counts()) continue;
    if (!goes_on_from(farm_.branches, tablet, e.event.ref.device)) continue;
    if (const auto& said = std::get<SetupChanged>(e.event.body).*field) return *said;
  }
  return {};
}

void Reader::add(const Said& e, const Body& body) {
  if (const auto* o = std::get_if<WalkOpened>(&body)) add_not_reached(e, *o);
  if (const auto* s = std::get_if<VaporizerSet>(&body)) add_setting(e, *s);
  if (const auto* p = std::get_if<ColonyPassedOver>(&body)) add_pass(e, *p);
  if (const auto* l = std::get_if<EnteredLate>(&body)) add_late(e, *l);
  if (const auto* t = std::get_if<OtherTreatmentGiven>(&body)) add_other(e, *t);
}

RegisterRow Reader::begin_row(const Said& e, ColonyId colony) const {
  RegisterRow row;
  row.entry = e.by.event.ref;
  if (const auto* c = std::get_if<EntryCorrected>(&e.by.event.body)) row.corrects = c->entry;
  if (const EntryHandle c = correction_after(farm_, e.by)) row.corrected_by = c->event.ref;
  row.date = local_date(e.first.event.stamp);
  row.at = e.first.event.stamp;
  row.colony = colony;
  row.colony_name = colony_called(farm_, colony);
  row.struck = e.by.struck;
  row.fallen = e.by.fallen;
  return row;
}

RegisterRow Reader::begin_walk_row(const Said& e, WalkId walk, ColonyId colony) {
  RegisterRow row = begin_row(e, colony);
  row.walk = walk;
  const WalkOpened* opened = opening_of(walk);
  if (opened == nullptr) return row;
  const WalkOpened& o = *opened;
  row.yard = o.yard;
  row.yard_name = yard_called(farm_, o.yard);
  row.label_product = o.rules.product;
  row.operator_name = o.operator_name;
  row.operator_address = o.operator_address;
  row.reason = o.reason;
  row.weather = o.conditions;
  return row;
}

void Reader::add_label(RegisterRow& row, const LabelRules& rules) const {
  row.product = rules.product;
  row.registration = rules.registration;
  row.withdrawal_days = rules.withdrawal_days;
  row.basis = rules.basis;
  row.over_label = over_label(rules, *row.dose, *row.brood_boxes);
  row.supers_against_label = *row.supers_on && rules.supers == Supers::Forbidden;
  // Supers have a mark of their own.
  row.against_label = engine::against_label(farm_, {row.colony, row.date, false}, rules);
  row.supers_unclear = *row.supers_on && rules.supers == Supers::Unknown;
  row.dihydrate_equal = dihydrate(rules, *row.dose);
  if (rules.basis == Basis::Anhydrous)
    row.anhydrous_equal = row.dose;
  else if (row.dihydrate_equal)
    row.anhydrous_equal = anhydrous(*row.dihydrate_equal);
}

// What was in the container goes before what the profile calls it.
void Reader::add_lot(RegisterRow& row, const std::optional<LotId>& id) const {
  const std::optional<Lot> known = id ? lot_of(farm_, *id) : std::nullopt;
  if (!known) return;
  const Lot& lot = *known;
  row.lot = id;
  if (!lot.product.empty()) row.product = lot.product;
  if (!lot.registration.empty()) row.registration = lot.registration;
  row.lot_code = lot.code;
  row.lot_expiry = lot.expiry;
  row.lot_expired = lot.expiry && days(*lot.expiry) < days(row.date);
  row.supplier = lot.supplier;
  row.supplier_address = lot.supplier_address;
  row.receipt = lot.receipt;
}

// Of what was entered afterwards only the lengths that were given can be short.
Outcome late_outcome(const Walk& walk, const Treatment& t) {
  if (t.late_seal && *t.late_seal < walk.rules.seal_least) return Outcome::ShortSeal;
  if (t.late_dwell && *t.late_dwell < walk.rules.dwell_least) return Outcome::ShortDwell;
  return Outcome::Treated;
}

Outcome outcome_of(const Walk& walk, const Treatment& t) {
  if (t.late) return late_outcome(walk, t);
  if (!t.uncovered_at) return walk.closed ? Outcome::LeftCovered : Outcome::UnderWay;
  if (!t.cloth) return Outcome::LeftOpen;
  if (seal_of(t)->length < walk.rules.seal_least) return Outcome::ShortSeal;
  if (dwell_of(t)->length < walk.rules.dwell_least) return Outcome::ShortDwell;
  return Outcome::Treated;
}

// Whether the entry `what` belongs to the i-th treatment: until the next setting; what was before
// the first belongs to the first. The log's order decides, not the clock.
bool Reader::belongs(const Stop& stop, std::size_t i, const EntryRef& what) const {
  const auto place = [&](const EntryRef& ref) { return *farm_.log.find(ref); };
  const bool after_own = i == 0 || place(stop.treatments[i].entry) < place(what);
  const bool last = i + 1 == stop.treatments.size();
  return after_own && (last || place(what) < place(stop.treatments[i + 1].entry));
}

void Reader::add_course_of(RegisterRow& row, const Walk& walk, const Stop& stop,
                           std::size_t at) const {
  const Treatment& t = stop.treatments[at];
  row.over_label = t.over_label;  // with what the colony had that day already
  row.dwell = dwell_of(t);
  row.seal = t.cloth || t.late ? seal_of(t) : std::nullopt;
  row.seal_end_inferred = t.uncover_inferred;
  row.outcome = outcome_of(walk, t);
  row.flight = t.flight;
  for (const StopMishap& m : stop.mishaps)
    if (belongs(stop, at, m.entry)) row.mishaps.push_back(m);
  if (at + 1 == stop.treatments.size()) row.come_back = reasons_to_come_back(walk, stop);
}

void Reader::add_setting(const Said& e, const VaporizerSet& set) {
  RegisterRow row = begin_walk_row(e, set.walk, set.colony);
  row.dose = set.dose;
  row.brood_boxes = set.brood_boxes;
  row.supers_on = set.supers_on;
  if (const WalkOpened* opened = opening_of(set.walk)) add_label(row, opened->rules);
  add_lot(row, set.lot);
  row.outcome = row.struck ? Outcome::Struck : Outcome::Fallen;
  const Walk* walk = walk_of(set.walk);
  const Stop* stop = walk != nullptr && e.counts() ? find_stop(*walk, set.colony) : nullptr;
  for (std::size_t i = 0; stop != nullptr && i < stop->treatments.size(); ++i)
    if (stop->treatments[i].entry == e.first.event.ref) add_course_of(row, *walk, *stop, i);
  rows_.push_back(std::move(row));
}

void Reader::add_pass(const Said& e, const ColonyPassedOver& pass) {
  RegisterRow row = begin_walk_row(e, pass.walk, pass.colony);
  row.passed = pass.reason;
  row.note = pass.note;
  row.outcome = row.struck ? Outcome::Struck : Outcome::Fallen;
  if (e.counts()) {
    // A colony that was passed over again, or treated after all, has its row there.
    if (!was_last(e.first.event.ref, pass)) return;
    const Walk* walk = walk_of(pass.walk);
    const Stop* stop = walk == nullptr ? nullptr : find_stop(*walk, pass.colony);
    if (stop == nullptr || !stop->passed) return;
    row.outcome = Outcome::PassedOver;
    row.flight = std::max(walk->conditions.flight, stop->flight.value_or(walk->flight));
    row.mishaps = stop->mishaps;
    row.come_back = reasons_to_come_back(*walk, *stop);
  }
  rows_.push_back(std::move(row));
}

void Reader::add_not_reached(const Said& e, const WalkOpened& opened) {
  const Walk* walk = walk_of(opened.walk);
  if (walk == nullptr || !walk->closed || !e.counts()) return;
  for (const Stop& stop : walk->stops) {
    if (stop.phase != Phase::ToDo) continue;
    RegisterRow row = begin_walk_row(e, opened.walk, stop.colony);
    row.date = local_date(*walk->closed);
    row.at = walk->closed;
    row.outcome = Outcome::NotReached;
    row.flight = std::max(walk->conditions.flight, stop.flight.value_or(walk->flight));
    row.mishaps = stop.mishaps;
    row.come_back = reasons_to_come_back(*walk, stop);
    rows_.push_back(std::move(row));
  }
}

// When it happened, from a day and perhaps a minute; when it was entered, where that is later.
void set_when(RegisterRow& row, Date on, const std::optional<int>& minute, bool always_late) {
  const Stamp entered = *row.at;
  if (always_late || on != row.date) row.entered = entered;
  row.date = on;
  row.at.reset();
  if (minute) row.at = stamp_on(on, std::chrono::minutes{*minute}, entered.zone);
}

void Reader::add_late(const Said& e, const EnteredLate& late) {
  RegisterRow row = begin_walk_row(e, late.walk, late.colony);
  row.yard = late.yard;
  row.yard_name = yard_called(farm_, late.yard);
  set_when(row, late.on, late.minute, true);
  if (!late.operator_name.empty()) row.operator_name = late.operator_name;
  if (!late.operator_address.empty()) row.operator_address = late.operator_address;
  if (!late.reason.empty()) row.reason = late.reason;
  if (late.weather) row.weather = late.weather;
  row.label_product = late.rules.product;
  row.note = late.note;
  row.passed = late.passed;
  if (!late.passed) {
    row.dose = late.dose;
    row.brood_boxes = late.brood_boxes;
    row.supers_on = late.supers_on;
    add_label(row, late.rules);
    add_lot(row, late.lot);
  }
  row.outcome = row.struck ? Outcome::Struck : e.counts() ? Outcome::PassedOver : Outcome::Fallen;
  const Walk* walk = e.counts() ? walk_of(late.walk) : nullptr;
  const Stop* stop = walk != nullptr ? find_stop(*walk, late.colony) : nullptr;
  if (stop != nullptr && late.passed && stop->passed)
    row.come_back = reasons_to_come_back(*walk, *stop);
  for (std::size_t i = 0; stop != nullptr && i < stop->treatments.size(); ++i)
    if (stop->treatments[i].entry == e.first.event.ref) add_course_of(row, *walk, *stop, i);
  rows_.push_back(std::move(row));
}

void Reader::add_other(const Said& e, const OtherTreatmentGiven& given) {
  RegisterRow row = begin_row(e, given.colony);
  set_when(row, given.on, given.minute, false);
  const auto stood = stood_in(given.colony);
  row.yard = stood ? *stood : yard_of(e.first.event.body, farm_).value_or(YardId{});
  row.yard_name = yard_called(farm_, row.yard);
  row.method = given.method;
  row.product = given.product;
  row.registration = given.registration;
  row.lot_code = given.lot;
  row.dose_text = given.dose;
  row.withdrawal_days = given.withdrawal_days;
  row.note = given.note;
  row.days_given = given.days_given;
  row.lot_expiry = given.lot_expiry;
  row.lot_expired = given.lot_expiry && days(*given.lot_expiry) < days(given.on);
  row.supplier = given.supplier.value_or("");
  row.supplier_address = given.supplier_address.value_or("");
  row.receipt = given.receipt.value_or("");
  row.brood_boxes = given.brood_boxes;
  row.supers_on = given.supers_on;
  const DeviceId tablet = e.first.event.ref.device;
  row.operator_name =
      given.operator_name ? *given.operator_name : setup_then(tablet, &SetupChanged::operator_name);
  row.operator_address = given.operator_address
                             ? *given.operator_address
                             : setup_then(tablet, &SetupChanged::operator_address);
  row.reason = given.reason.value_or("");
  row.weather = given.weather;
  if (row.struck) row.outcome = Outcome::Struck;
  if (!row.struck && !e.counts()) row.outcome = Outcome::Fallen;
  rows_.push_back(std::move(row));
}

bool from_lot(const RegisterRow& row, const LotWanted& lot) {
  if (lot.id && row.lot == lot.id) return true;
  return !lot.code.empty() && row.lot_code == lot.code;
}

bool asked_for(const RegisterRow& row, const RegisterQuery& q) {
  if (q.colony && row.colony != *q.colony) return false;
  if (q.lot && !from_lot(row, *q.lot)) return false;
  if (q.from && days(row.date) < days(*q.from)) return false;
  if (q.to && days(row.date) > days(*q.to)) return false;
  return !q.yard || row.yard == *q.yard;
}

// Entries that may have rows of what is asked for, the newest first.
std::vector<LogIndex::Place> candidates(const Farm& farm, const LogIndex& book,
                                        const RegisterQuery& q) {
  if (q.colony) return book.of_colony(*q.colony);
  if (!q.lot) return {book.treatments().begin(), book.treatments().end()};
  std::vector<LogIndex::Place> all = book.given_from(q.lot->code);
  const auto add = [&](LotId lot) {
    const auto more = book.given_from(lot);
    all.insert(all.end(), more.begin(), more.end());
  };
  if (q.lot->id) add(*q.lot->id);
  for (const auto& [id, lot] : farm.lots)
    if (!lot.code.empty() && lot.code == q.lot->code && id != q.lot->id) add(id);
  std::sort(all.begin(), all.end(), std::greater<>());
  return all;
}

// Whether some treatment that counts was given from a lot of that code.
bool still_said(const Farm& farm, const LogIndex& book, const std::string& code) {
  const auto places = book.given_from(code);
  return std::any_of(places.begin(), places.end(), [&](LogIndex::Place place) {
    const Entry e = farm.log.copy(place);
    const auto given = holds<OtherTreatmentGiven>(farm, e);
    return given && given->lot == code;
  });
}

}  // namespace

const char* words(Outcome o) {
  constexpr std::array<const char*, 10> kWords{"treated",
                                               "treated, short dwell",
                                               "treated, short seal",
                                               "treated, lifted and left open",
                                               "treated, left covered",
                                               "under way",
                                               "passed over",
                                               "not reached",
                                               "struck",
                                               "no longer counts"};
  return kWords[static_cast<std::size_t>(o)];
}

// By day, then by the clock; what has only a day comes first, and the log's order decides the rest.
bool older(const RowPlace& a, const RowPlace& b) {
  if (a.date != b.date) return days(a.date) < days(b.date);
  if (a.at.has_value() != b.at.has_value()) return !a.at;
  return a.at && *a.at < *b.at;
}

Search::Search(const Farm& farm, const LogIndex& book, RegisterQuery query)
    : query_(std::move(query)), candidates_(candidates(farm, book, query_)) {}

void Search::go_on(const Farm& farm, const LogIndex& book, std::size_t most) {
  Reader reader(farm, book);
  for (; most > 0 && next_ < candidates_.size(); --most, ++next_) {
    const LogIndex::Place place = candidates_[next_];
    const auto rows = reader.rows_of(place);
    for (std::size_t n = rows.size(); n-- > 0;)
      if (asked_for(rows[n], query_)) found(rows[n], {place, n, rows[n].date, {}});
  }
  farm.log.let_go();
}

void Search::found(const RegisterRow& row, RowPlace at) {
  if (row.at) at.at = row.at->at;
  // Read newest first, it nearly always belongs at the end.
  auto behind = rows_.end();
  while (behind != rows_.begin() && older(*std::prev(behind), at)) --behind;
  rows_.insert(behind, at);
  if (!row.counts()) return;
  Given& given = given_[row.colony];
  if (given.times++ == 0)
    given.colony = row.colony, given.name = row.colony_name, given.yard = row.yard_name,
    given.last = row.date;
  given.sum = given.sum + row.dose.value_or(Mass{});
  given.last = std::max(given.last, row.date);
}

RegisterRow Search::row(const Farm& farm, const LogIndex& book, std::size_t i) const {
  return Reader(farm, book).rows_of(rows_[i].place).at(rows_[i].of_entry);
}

std::vector<RegisterRow> register_rows(const Farm& farm, const LogIndex& book,
                                       const RegisterQuery& query) {
  Reader reader(farm, book);
  std::vector<RegisterRow> rows;
  const auto places = candidates(farm, book, query);
  for (auto place = places.rbegin(); place != places.rend(); ++place) {
    for (RegisterRow& row : reader.rows_of(*place))
      if (asked_for(row, query)) rows.push_back(std::move(row));
    farm.log.let_go();
  }
  const auto place_of = [](const RegisterRow& r) {
    return RowPlace{0, 0, r.date, r.at ? std::optional(r.at->at) : std::nullopt};
  };
  std::stable_sort(rows.begin(), rows.end(), [&](const RegisterRow& a, const RegisterRow& b) {
    return older(place_of(a), place_of(b));
  });
  return rows;
}

std::vector<RegisterRow> register_rows(const Farm& farm, const RegisterQuery& query) {
  LogIndex book;
  book.read_all(farm);
  return register_rows(farm, book, query);
}

std::vector<std::string> label_breaches(const RegisterRow& row) {
  std::vector<std::string> lines;
  if (row.over_label) lines.emplace_back("over the label's most");
  if (row.supers_against_label) lines.emplace_back("honey supers on");
  lines.insert(lines.end(), row.against_label.begin(), row.against_label.end());
  return lines;
}

std::vector<LotWanted> lots_known(const Farm& farm, const LogIndex& book) {
  std::vector<LotWanted> lots;
  std::set<std::string> codes;
  for (const auto& [id, lot] : farm.lots) {
    if (!lot.code.empty() && !codes.insert(lot.code).second) continue;
    lots.push_back({id, lot.code});
  }
  for (const std::string& code : book.codes())
    if (still_said(farm, book, code) && codes.insert(code).second) lots.push_back({{}, code});
  std::stable_sort(lots.begin(), lots.end(), [&](const LotWanted& a, const LotWanted& b) {
    return before_by_name(words(a, farm), words(b, farm));
  });
  return lots;
}

std::string words(const LotWanted& lot, const Farm& farm) {
  if (!lot.code.empty() || !lot.id) return lot.code;
  const auto known = lot_of(farm, *lot.id);
  return known ? known->product : "unknown lot";
}

std::optional<Date> complete_from(const Farm& farm) {
  if (farm.log.empty()) return std::nullopt;
  return local_date(farm.log.front()->event.stamp);
}

}  // namespace engine
