#include "storage/register/register_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace storage {

using namespace engine;

namespace {

using Role = Piece::Role;

CellLine plain(std::string text, bool small = false) { return {{{std::move(text)}}, small}; }
CellLine name(const std::string& text) { return {{{text, Role::Name}}}; }
CellLine mark(const char* text, const char* after = "") {
  CellLine line{{{text, Role::Mark}}};
  if (*after != '\0') line.pieces.push_back({std::string(" ") + after});
  return line;
}

// ---- the cells of one row ----

Cell when_cell(const RegisterRow& r) {
  Cell cell{plain(iso_date(r.date))};
  if (r.at) cell.push_back(plain(clock_time(*r.at)));
  if (r.at && !credible(*r.at)) cell.push_back(mark("CLOCK WRONG"));
  if (r.entered) cell.push_back(plain("entered late", true));
  return cell;
}

Cell product_cell(const RegisterRow& r) {
  Cell cell;
  if (!r.product.empty()) cell.push_back(name(r.product));
  if (!r.lot_code.empty()) cell.push_back({{{"lot "}, {r.lot_code, Role::Name}}});
  return cell;
}

Cell dose_cell(const RegisterRow& r, Units shown) {
  if (!r.dose) return r.dose_text.empty() ? Cell{} : Cell{name(r.dose_text)};
  Cell cell{plain(words(*r.dose, r.basis, kSi))};
  if (shown.mass != kSi.mass) cell.push_back(plain(fmt::format("({})", show(*r.dose, shown.mass))));
  if (r.basis == Basis::Product && !r.dihydrate_equal)
    cell.push_back(plain("strength not entered", true));
  if (r.basis != Basis::Dihydrate && r.dihydrate_equal)
    cell.push_back(plain("= " + words(*r.dihydrate_equal, Basis::Dihydrate, kSi), true));
  if (r.basis != Basis::Anhydrous && r.anhydrous_equal)
    cell.push_back(plain("= " + words(*r.anhydrous_equal, Basis::Anhydrous, kSi), true));
  return cell;
}

Cell hive_cell(const RegisterRow& r) {
  Cell cell;
  if (r.brood_boxes)
    cell.push_back(plain(counted(static_cast<std::size_t>(*r.brood_boxes), "box", "boxes")));
  if (r.supers_on) cell.push_back(plain(*r.supers_on ? "supers on" : "no supers"));
  return cell;
}

std::string length_words(const Elapsed& e) {
  return (e.sure ? "" : "at least ") + minutes_seconds(e.length);
}

Cell times_cell(const RegisterRow& r) {
  Cell cell;
  if (r.days_given)
    cell.push_back(
        plain("given for " + counted(static_cast<std::size_t>(*r.days_given), "day", "days")));
  if (r.dwell) cell.push_back(plain("dwell " + length_words(*r.dwell)));
  if (r.seal) cell.push_back(plain("seal " + length_words(*r.seal)));
  if (r.seal_end_inferred) cell.push_back(plain("end inferred", true));
  if ((r.dwell && !r.dwell->sure) || (r.seal && !r.seal->sure))
    cell.push_back(plain("clock unsure", true));
  return cell;
}

Cell withdrawal_cell(const RegisterRow& r) {
  if (!r.withdrawal_days) return {};
  return {plain(counted(static_cast<std::size_t>(*r.withdrawal_days), "day", "days"))};
}

Cell outcome_cell(const RegisterRow& r) {
  Cell cell;
  if (r.struck) cell.push_back(mark(r.corrected_by ? "STRUCK, CORRECTED" : "STRUCK"));
  if (!r.struck && !r.counts()) cell.push_back(mark("DOES NOT COUNT"));
  if (r.counts()) cell.push_back(plain(words(r.outcome)));
  if (r.passed) cell.push_back(plain(words(*r.passed)));
  if (r.method != Method::Vapor) cell.push_back(plain(words(r.method)));
  if (r.over_label) cell.push_back(mark("OVER THE LABEL"));
  if (r.supers_against_label) cell.push_back(mark("SUPERS ON", "against the label"));
  for (const std::string& line : r.against_label) {
    cell.push_back(mark("AGAINST THE LABEL"));
    cell.push_back(plain(line, true));
  }
  if (r.supers_unclear) cell.push_back(mark("SUPERS ON", "the label profile does not say"));
  if (r.lot_expired) cell.push_back(mark("LOT EXPIRED"));
  return cell;
}

Cell entry_cell(const RegisterRow& r) {
  return {plain(fmt::format("{}-{}", short_device(r.entry.device), r.entry.seq), true)};
}

// ---- the line below a row ----

// Sentences one after the other in one line.
class Sentences {
 public:
  Sentences& begin(const std::string& text) {
    return add({(pieces_.empty() ? "" : " ") + text, Role::Plain});
  }
  Sentences& say(const std::string& text) { return add({text, Role::Plain}); }
  Sentences& quote(const std::string& text) { return add({text, Role::Name}); }
  [[nodiscard]] CellLine line() const { return {pieces_, true}; }

 private:
  Sentences& add(Piece piece) {
    pieces_.push_back(std::move(piece));
    return *this;
  }
  std::vector<Piece> pieces_;
};

void add_struck(Sentences& s, const RegisterRow& r) {
  if (r.struck) {
    s.begin(fmt::format("{} {} {} by tablet {}: ", r.corrected_by ? "Corrected" : "Struck",
                        iso_date(local_date(r.struck->at)), clock_time(r.struck->at),
                        short_device(r.struck->by.device)));
    if (r.struck->reason.empty())
      s.say("no reason given.");
    else
      s.quote(r.struck->reason).say(".");
    if (r.corrected_by)
      s.begin(fmt::format("Entry {} holds in its place.", short_ref(*r.corrected_by)));
  } else if (!r.counts()) {
    s.begin("It does not count: ").say(sentence(r.fallen));
  }
  if (r.corrects) s.begin(fmt::format("It corrects entry {}.", short_ref(*r.corrects)));
  if (r.entered)
    s.begin(fmt::format("Entered on {} at {}.", iso_date(local_date(*r.entered)),
                        clock_time(*r.entered)));
}

void add_mishaps(Sentences& s, const RegisterRow& r) {
  for (const StopMishap& m : r.mishaps) {
    s.begin(fmt::format("Mishap at {}: {}", clock_time(m.at), words(m.what)));
    if (!m.note.empty()) s.say(", ").quote(m.note);
    s.say(".");
  }
}

void add_come_back(Sentences& s, const RegisterRow& r) {
  std::string all;
  for (const ComeBackReason& c : r.come_back) all += (all.empty() ? "" : "; ") + words(c);
  if (!all.empty()) s.begin("Come back: " + all + ".");
}

// Of what no opened walk says: other treatments, and what was entered afterwards.
void add_by_whom(Sentences& s, const RegisterRow& r) {
  if (r.walk && !r.entered) return;
  if (!r.reason.empty()) s.begin("Reason: ").quote(r.reason).say(".");
  if (r.weather) s.begin("Weather: " + weather_of(*r.weather, kSi) + ".");
  if (!r.operator_name.empty()) {
    s.begin("By ").quote(r.operator_name);
    if (!r.operator_address.empty()) s.say(", ").quote(r.operator_address);
    s.say(".");
  }
  if (!r.registration.empty()) s.begin("Registration no. ").quote(r.registration).say(".");
}

// What the visit came to of which this is the last row.
StopOutcome visit_outcome(const RegisterRow& r) {
  if (r.outcome == Outcome::PassedOver) return StopOutcome::PassedOver;
  if (r.outcome == Outcome::NotReached) return StopOutcome::NotReached;
  if (r.outcome == Outcome::UnderWay) return StopOutcome::UnderWay;
  return r.come_back.empty() ? StopOutcome::Treated : StopOutcome::ComeBack;
}

}  // namespace

RegisterCells cells_of(const RegisterRow& r, Units shown) {
  return {when_cell(r), outcome_cell(r), product_cell(r),    dose_cell(r, shown),
          hive_cell(r), times_cell(r),   withdrawal_cell(r), entry_cell(r)};
}

bool lined_through(const RegisterRow& row, RegisterColumn column) {
  return !row.counts() && column != RegisterColumn::Outcome && column != RegisterColumn::Entry;
}

CellLine more_of(const RegisterRow& r) {
  Sentences s;
  add_struck(s, r);
  if (r.flight && *r.flight != Flight::None) s.begin(std::string(words(*r.flight)) + ".");
  add_mishaps(s, r);
  add_come_back(s, r);
  if (!r.note.empty()) s.begin("Note: ").quote(r.note).say(".");
  add_by_whom(s, r);
  return s.line();
}

std::string weather_of(const Conditions& c, Units shown) {
  std::string out = words(c, kSi);
  if (c.temperature && shown.temperature != kSi.temperature)
    out += fmt::format(" ({})", show(*c.temperature, shown.temperature));
  return out;
}

std::vector<YardRows> by_yard(const std::vector<RegisterRow>& rows) {
  std::map<std::pair<std::string, YardId>, YardRows> yards;
  std::map<ColonyId, std::map<YardId, std::size_t>> place;
  for (const RegisterRow& r : rows) {
    YardRows& yard = yards[{r.yard_name, r.yard}];
    yard.name = r.yard_name;
    yard.rows.push_back(&r);
    const auto [at, fresh] = place[r.colony].try_emplace(r.yard, yard.colonies.size());
    if (fresh) yard.colonies.push_back({r.colony, {}});
    yard.colonies[at->second].rows.push_back(&r);
  }
  std::vector<YardRows> list;
  for (auto& [key, yard] : yards) list.push_back(std::move(yard));
  return list;
}

RowRefs walks_among(const RowRefs& rows) {
  RowRefs first;
  for (const RegisterRow* r : rows) {
    const bool known = std::any_of(first.begin(), first.end(),
                                   [&](const RegisterRow* f) { return f->walk == r->walk; });
    if (r->walk && !known) first.push_back(r);
  }
  return first;
}

std::vector<RegisterSum> sums_of(const std::vector<RegisterRow>& rows) {
  std::map<std::pair<WalkId, ColonyId>, StopOutcome> visits;
  std::size_t other = 0, marked = 0, struck = 0;
  for (const RegisterRow& r : rows) {
    if (!r.counts()) {
      ++struck;
      continue;
    }
    marked += r.is_against_label() ? 1 : 0;
    if (r.walk)
      visits[{*r.walk, r.colony}] = visit_outcome(r);
    else
      ++other;
  }
  WalkTotals sum;
  for (const auto& [visit, outcome] : visits) sum.add(outcome);
  std::vector<RegisterSum> sums = {{sum.treated, "treated"},
                                   {sum.come_back, "treated, again"},
                                   {sum.passed_over, "passed over"},
                                   {sum.not_reached, "not reached"}};
  if (sum.under_way > 0) sums.push_back({sum.under_way, "under way"});
  if (other > 0) sums.push_back({other, "other treatments"});
  sums.push_back({marked, "of these against the label"});
  sums.push_back({struck, "entries struck or fallen"});
  return sums;
}

}  // namespace storage
