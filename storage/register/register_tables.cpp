#include "storage/register/register_tables.h"

#include "storage/register/register_files.h"
#include "storage/text/csv_out.h"

namespace storage {
namespace {

using engine::RegisterRow;
using engine::Units;

void number(TableOut& out, const std::optional<int>& n) { n ? out.number(*n) : out.empty(); }
void milligrams(TableOut& out, const std::optional<engine::Mass>& m) {
  m ? out.milligrams(*m) : out.empty();
}
void yes_no(TableOut& out, bool yes) { out.as_it_is(yes ? "yes" : "no"); }
void seconds(TableOut& out, const std::optional<engine::Elapsed>& e) {
  e ? out.number(e->length.count() / 1000) : out.empty();
}

// The tablet's clock was changed between the two ends of it.
bool unsure(const std::optional<engine::Elapsed>& e) { return e && !e->sure; }

template <class List, class Say>
std::string joined(const List& list, Say say) {
  std::string all;
  for (const auto& item : list) all += (all.empty() ? "" : "; ") + say(item);
  return all;
}

std::string mishap(const engine::StopMishap& m) {
  return std::string(engine::words(m.what)) + (m.note.empty() ? "" : ": " + m.note);
}

using Write = void (*)(TableOut&, const RegisterRow&, Units);
struct Column {
  const char* name;
  Write write;
};

#define COLUMN(name, statement)                                       \
  Column {                                                            \
    name, [](TableOut& o, const RegisterRow& r, Units) { statement; } \
  }

// ---- who, when, where ----
const Column kPlace[] = {
    COLUMN("date", o.day(r.date)),
    COLUMN("time", o.as_it_is(r.at ? engine::clock_time(*r.at) : "")),
    COLUMN("when", o.as_it_is(r.at ? engine::rfc3339(*r.at) : "")),
    COLUMN("yard", o.text(r.yard_name)),
    COLUMN("colony", o.text(r.colony_name)),
    COLUMN("colony_id", o.as_it_is(engine::text(r.colony))),
    COLUMN("outcome", o.text(engine::words(r.outcome))),
    COLUMN("passed_over_because", o.text(r.passed ? engine::words(*r.passed) : "")),
    COLUMN("method", o.text(engine::words(r.method))),
    COLUMN("product", o.text(r.product)),
    COLUMN("registration_no", o.text(r.registration)),
    COLUMN("lot", o.text(r.lot_code)),
    COLUMN("lot_expiry", o.day(r.lot_expiry)),
    COLUMN("lot_expired", yes_no(o, r.lot_expired)),
    COLUMN("supplier", o.text(r.supplier)),
    COLUMN("supplier_address", o.text(r.supplier_address)),
    COLUMN("receipt", o.text(r.receipt)),
};

// ---- how much, how long ----
const Column kDose[] = {
    COLUMN("dose_mg", milligrams(o, r.dose)),
    COLUMN("dose_basis", o.text(r.dose ? engine::words(r.basis) : "")),
    COLUMN("dihydrate_mg", milligrams(o, r.dihydrate_equal)),
    COLUMN("anhydrous_mg", milligrams(o, r.anhydrous_equal)),
    COLUMN("dose_as_written", o.text(r.dose_text)),
    Column{"dose_shown",
           [](TableOut& o, const RegisterRow& r, Units u) {
             const bool other = u.mass != engine::kSi.mass;
             o.text(other && r.dose ? engine::words(*r.dose, r.basis, u) : "");
           }},
    COLUMN("over_label", yes_no(o, r.over_label)),
    COLUMN("brood_boxes", number(o, r.brood_boxes)),
    COLUMN("supers_on", o.text(!r.supers_on   ? ""
                               : *r.supers_on ? "yes"
                                              : "no")),
    COLUMN("supers_against_label", o.text(r.supers_unclear         ? "not known"
                                          : r.supers_against_label ? "yes"
                                                                   : "no")),
    COLUMN("against_label",
           o.text(joined(engine::label_breaches(r), [](const std::string& line) { return line; }))),
    COLUMN("withdrawal_days", number(o, r.withdrawal_days)),
    COLUMN("days_given", number(o, r.days_given)),
    COLUMN("dwell_s", seconds(o, r.dwell)),
    COLUMN("seal_s", seconds(o, r.seal)),
    COLUMN("seal_end_inferred", yes_no(o, r.seal_end_inferred)),
    COLUMN("clock_unsure",
           yes_no(o, unsure(r.dwell) || unsure(r.seal) || (r.at && !engine::credible(*r.at)))),
};

// ---- who did it, in which weather, what else ----
const Column kAround[] = {
    COLUMN("operator", o.text(r.operator_name)),
    COLUMN("operator_address", o.text(r.operator_address)),
    COLUMN("reason", o.text(r.reason)),
    Column{"temperature_tenths_c",
           [](TableOut& o, const RegisterRow& r, Units) {
             const bool known = r.weather && r.weather->temperature;
             known ? o.tenths(r.weather->temperature->tenths_c) : o.empty();
           }},
    Column{"temperature_shown",
           [](TableOut& o, const RegisterRow& r, Units u) {
             const bool known = r.weather && r.weather->temperature;
             const bool other = u.temperature != engine::kSi.temperature;
             o.text(known && other ? show(*r.weather->temperature, u.temperature) : "");
           }},
    COLUMN("flight", o.text(r.flight ? engine::words(*r.flight) : "")),
    Column{"wind_tenths_m_s",
           [](TableOut& o, const RegisterRow& r, Units) {
             r.weather&& r.weather->wind_dm_s ? o.tenths(*r.weather->wind_dm_s) : o.empty();
           }},
    COLUMN("wind_from_deg", number(o, r.weather ? r.weather->wind_from_deg : std::nullopt)),
    COLUMN("rain", o.text(!r.weather        ? ""
                          : r.weather->rain ? "yes"
                                            : "no")),
    COLUMN("come_back",
           o.text(joined(r.come_back, [](const auto& c) { return engine::words(c); }))),
    COLUMN("mishaps", o.text(joined(r.mishaps, mishap))),
    COLUMN("note", o.text(r.note)),
    COLUMN("entry", o.text(engine::short_ref(r.entry))),
    COLUMN("device_id", o.as_it_is(engine::text(r.entry.device))),
    COLUMN("seq", o.number(r.entry.seq)),
    COLUMN("struck", yes_no(o, r.struck.has_value())),
    COLUMN("struck_because", o.text(r.struck ? r.struck->reason : "")),
    COLUMN("struck_when", o.as_it_is(r.struck ? engine::rfc3339(r.struck->at) : "")),
    COLUMN("struck_by_device", o.as_it_is(r.struck ? engine::text(r.struck->by.device) : "")),
    COLUMN("fallen_because", o.text(engine::sentence(r.fallen))),
    COLUMN("entered_late", yes_no(o, r.entered.has_value())),
    COLUMN("entered_when", o.as_it_is(r.entered ? engine::rfc3339(*r.entered) : "")),
    COLUMN("corrects_entry", o.text(r.corrects ? engine::short_ref(*r.corrects) : "")),
    COLUMN("corrected_by", o.text(r.corrected_by ? engine::short_ref(*r.corrected_by) : "")),
};

#undef COLUMN

template <class Each>
void each_column(Each each) {
  for (const Column& c : kPlace) each(c);
  for (const Column& c : kDose) each(c);
  for (const Column& c : kAround) each(c);
}

}  // namespace

void register_table(TableOut& out, std::span<const RegisterRow> rows, Units shown) {
  each_column([&](const Column& c) { out.name(c.name); });
  out.end_row();
  for (const RegisterRow& r : rows) {
    each_column([&](const Column& c) { c.write(out, r, shown); });
    out.end_row();
  }
}

void stock_table(TableOut& out, std::span<const engine::StockRow> rows) {
  for (const char* name :
       {"date", "what", "product", "lot", "expiry", "amount_mg", "supplier", "supplier_address",
        "receipt", "disposed_because", "disposed_how", "entry", "struck", "struck_because",
        "entered_when", "corrects_entry", "corrected_by"})
    out.name(name);
  out.end_row();
  for (const engine::StockRow& r : rows) {
    out.day(r.on);
    out.text(r.why ? "disposed" : "received");
    out.text(r.product);
    out.text(r.code);
    out.day(r.expiry);
    out.milligrams(r.amount);
    out.text(r.supplier);
    out.text(r.supplier_address);
    out.text(r.receipt);
    out.text(r.why ? engine::words(*r.why) : "");
    out.text(r.how);
    out.text(short_ref(r.entry));
    yes_no(out, r.struck.has_value());
    out.text(r.struck ? r.struck->reason : "");
    out.as_it_is(r.entered ? rfc3339(*r.entered) : "");
    out.text(r.corrects ? short_ref(*r.corrects) : "");
    out.text(r.corrected_by ? short_ref(*r.corrected_by) : "");
    out.end_row();
  }
}

void day_table(TableOut& out, std::span<const engine::DayRow> rows) {
  for (const char* name : {"date", "time", "when", "yard", "colony", "what", "kind", "entry",
                           "device_id", "seq", "struck", "struck_because", "fallen_because"})
    out.name(name);
  out.end_row();
  for (const engine::DayRow& r : rows) {
    out.day(local_date(r.at));
    out.as_it_is(clock_seconds(r.at));
    out.as_it_is(rfc3339(r.at));
    out.text(r.yard);
    out.text(r.colony);
    out.text(r.what);
    out.text(r.kind);
    out.text(short_ref(r.entry));
    out.as_it_is(text(r.entry.device));
    out.number(r.entry.seq);
    yes_no(out, r.struck.has_value());
    out.text(r.struck ? r.struck->reason : "");
    out.text(engine::sentence(r.fallen));
    out.end_row();
  }
}

std::string register_csv(const std::vector<RegisterRow>& rows, Units shown) {
  CsvOut out;
  register_table(out, rows, shown);
  return out.bytes();
}

std::string stock_csv(const std::vector<engine::StockRow>& rows) {
  CsvOut out;
  stock_table(out, rows);
  return out.bytes();
}

std::string day_csv(const std::vector<engine::DayRow>& rows) {
  CsvOut out;
  day_table(out, rows);
  return out.bytes();
}

}  // namespace storage
