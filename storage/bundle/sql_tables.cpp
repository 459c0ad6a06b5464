#include "storage/bundle/sql_tables.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/register/register.h"
#include "engine/rounds/due.h"
#include "engine/season/counts.h"
#include "engine/season/kills.h"
#include "engine/words/words.h"

namespace storage {
namespace {

using engine::RegisterRow;

// A column and the cell that a row has in it stand together, so that they cannot come apart.
template <class Row>
struct Column {
  SqlColumn is;
  void (*cell)(CopyFile& out, const Row& row);
};

template <const auto& kColumns>
std::vector<SqlColumn> columns_of() {
  std::vector<SqlColumn> all;
  for (const auto& column : kColumns) all.push_back(column.is);
  return all;
}

template <const auto& kColumns, class Row>
void write_row(CopyFile& out, const Row& row) {
  for (const auto& column : kColumns) column.cell(out, row);
  out.end_row();
}

std::int64_t percent(double share) { return std::lround(100 * share); }

engine::Stamp in_utc(std::int64_t ms) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{ms}};
  return s;
}

// An entry as the journal has it and as the farm does; `known` is empty while it waits behind a
// gap.
struct EntryRow {
  const Sealed& sealed;
  std::optional<engine::Entry> known;
  std::optional<engine::DeviceId> side;  // of a fork
};
using YardRow = std::pair<const engine::YardId, engine::Yard>;
using ColonyRow = std::pair<const engine::ColonyId, engine::Colony>;
using LotRow = std::pair<const engine::LotId, engine::Lot>;
struct JoinedRow {
  std::string id, stands_for;
};

constexpr Column<EntryRow> kEntries[] = {
    {{"device", "uuid NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.text(r.sealed.record.device); }},
    {{"seq", "bigint NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.number(r.sealed.record.seq); }},
    {{"at", "timestamptz NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.time(in_utc(r.sealed.record.at_utc_ms)); }},
    {{"zone_offset_min", "integer NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.number(r.sealed.record.zone_offset_min); }},
    {{"kind", "text NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.text(r.sealed.record.kind); }},
    {{"body", "jsonb NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.json(r.sealed.record.body); }},
    {{"event", "text NOT NULL"},
     [](CopyFile& o, const EntryRow& r) { o.text(canonical(r.sealed.record)); }},
    {{"prev", "bytea NOT NULL"}, [](CopyFile& o, const EntryRow& r) { o.bytes(r.sealed.prev); }},
    {{"hash", "bytea NOT NULL"}, [](CopyFile& o, const EntryRow& r) { o.bytes(r.sealed.hash); }},
    {{"counts", "boolean"},
     [](CopyFile& o, const EntryRow& r) { r.known ? o.yes(r.known->counts()) : o.unknown(); }},
    {{"struck_because", "text"},
     [](CopyFile& o, const EntryRow& r) {
       const bool struck = r.known && r.known->struck;
       o.text_if(struck, struck ? r.known->struck->reason : "");
     }},
    {{"side", "uuid"},
     [](CopyFile& o, const EntryRow& r) { r.side ? o.text(engine::text(*r.side)) : o.unknown(); }},
};

constexpr Column<YardRow> kYards[] = {
    {{"yard", "uuid NOT NULL"},
     [](CopyFile& o, const YardRow& r) { o.text(engine::text(r.first)); }},
    {{"name", "text NOT NULL"}, [](CopyFile& o, const YardRow& r) { o.text(r.second.name); }},
    {{"lat", "double precision"},
     [](CopyFile& o, const YardRow& r) {
       r.second.place ? o.degrees(r.second.place->lat_udeg) : o.unknown();
     }},
    {{"lon", "double precision"},
     [](CopyFile& o, const YardRow& r) {
       r.second.place ? o.degrees(r.second.place->lon_udeg) : o.unknown();
     }},
    {{"zone", "text NOT NULL"}, [](CopyFile& o, const YardRow& r) { o.text(r.second.zone); }},
    {{"note", "text NOT NULL"}, [](CopyFile& o, const YardRow& r) { o.text(r.second.note); }},
    {{"given_up", "boolean NOT NULL"}, [](CopyFile& o, const YardRow& r) { o.yes(r.second.lost); }},
};

constexpr Column<ColonyRow> kColonies[] = {
    {{"colony", "uuid NOT NULL"},
     [](CopyFile& o, const ColonyRow& r) { o.text(engine::text(r.first)); }},
    {{"yard", "uuid NOT NULL"},
     [](CopyFile& o, const ColonyRow& r) { o.text(engine::text(r.second.yard)); }},
    {{"name", "text NOT NULL"}, [](CopyFile& o, const ColonyRow& r) { o.text(r.second.name); }},
    {{"brood_boxes", "integer NOT NULL"},
     [](CopyFile& o, const ColonyRow& r) { o.number(r.second.brood_boxes); }},
    {{"supers_on", "boolean NOT NULL"},
     [](CopyFile& o, const ColonyRow& r) { o.yes(r.second.supers_on); }},
    {{"note", "text NOT NULL"}, [](CopyFile& o, const ColonyRow& r) { o.text(r.second.note); }},
    {{"lost", "boolean NOT NULL"}, [](CopyFile& o, const ColonyRow& r) { o.yes(r.second.lost); }},
};

constexpr Column<LotRow> kLots[] = {
    {{"lot", "uuid NOT NULL"}, [](CopyFile& o, const LotRow& r) { o.text(engine::text(r.first)); }},
    {{"product", "text NOT NULL"}, [](CopyFile& o, const LotRow& r) { o.text(r.second.product); }},
    {{"registration", "text NOT NULL"},
     [](CopyFile& o, const LotRow& r) { o.text(r.second.registration); }},
    {{"code", "text NOT NULL"}, [](CopyFile& o, const LotRow& r) { o.text(r.second.code); }},
    {{"expiry", "date"},
     [](CopyFile& o, const LotRow& r) { r.second.expiry ? o.day(*r.second.expiry) : o.unknown(); }},
    {{"supplier", "text NOT NULL"},
     [](CopyFile& o, const LotRow& r) { o.text(r.second.supplier); }},
    {{"receipt", "text NOT NULL"}, [](CopyFile& o, const LotRow& r) { o.text(r.second.receipt); }},
    {{"received_g", "numeric NOT NULL"},
     [](CopyFile& o, const LotRow& r) { o.grams(r.second.received); }},
    {{"used_g", "numeric NOT NULL"}, [](CopyFile& o, const LotRow& r) { o.grams(r.second.used); }},
    {{"disposed_g", "numeric NOT NULL"},
     [](CopyFile& o, const LotRow& r) { o.grams(r.second.disposed); }},
};

// A count, and the threshold of its day.
struct CountRow {
  const engine::Count& count;
  int threshold_tenths = 0;
};
constexpr Column<CountRow> kCounts[] = {
    {{"device", "uuid NOT NULL"},
     [](CopyFile& o, const CountRow& r) { o.text(engine::text(r.count.entry.device)); }},
    {{"seq", "bigint NOT NULL"},
     [](CopyFile& o, const CountRow& r) { o.number(r.count.entry.seq); }},
    {{"colony", "uuid NOT NULL"},
     [](CopyFile& o, const CountRow& r) { o.text(engine::text(r.count.taken.colony)); }},
    {{"day", "date NOT NULL"}, [](CopyFile& o, const CountRow& r) { o.day(r.count.taken.on); }},
    {{"method", "text NOT NULL"},
     [](CopyFile& o, const CountRow& r) { o.text(engine::name(r.count.taken.method)); }},
    {{"mites", "integer NOT NULL"},
     [](CopyFile& o, const CountRow& r) { o.number(r.count.taken.mites); }},
    {{"bees", "integer"}, [](CopyFile& o, const CountRow& r) { o.number(r.count.taken.bees); }},
    {{"hours", "integer"}, [](CopyFile& o, const CountRow& r) { o.number(r.count.taken.hours); }},
    {{"threshold_tenths", "integer"},
     [](CopyFile& o, const CountRow& r) { o.number(r.threshold_tenths); }},
};

// A walk that was closed early has rows for the colonies that it did not reach.
constexpr Column<RegisterRow> kTreatments[] = {
    {{"device", "uuid NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(engine::text(r.entry.device)); }},
    {{"seq", "bigint NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.number(r.entry.seq); }},
    {{"day", "date NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.day(r.date); }},
    {{"at", "timestamptz"},
     [](CopyFile& o, const RegisterRow& r) { r.at ? o.time(*r.at) : o.unknown(); }},
    {{"yard", "uuid"},
     [](CopyFile& o, const RegisterRow& r) {
       r.yard.empty() ? o.unknown() : o.text(engine::text(r.yard));
     }},
    {{"yard_name", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.yard_name); }},
    {{"colony", "uuid NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(engine::text(r.colony)); }},
    {{"colony_name", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.colony_name); }},
    {{"method", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(engine::name(r.method)); }},
    {{"product", "text NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.text(r.product); }},
    {{"registration", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.registration); }},
    {{"lot_code", "text NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.text(r.lot_code); }},
    {{"dose_g", "numeric"},
     [](CopyFile& o, const RegisterRow& r) { r.dose ? o.grams(*r.dose) : o.unknown(); }},
    {{"dose_words", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.dose_text); }},
    {{"basis", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(engine::name(r.basis)); }},
    {{"brood_boxes", "integer"},
     [](CopyFile& o, const RegisterRow& r) { o.number(r.brood_boxes); }},
    {{"supers_on", "boolean"},
     [](CopyFile& o, const RegisterRow& r) { r.supers_on ? o.yes(*r.supers_on) : o.unknown(); }},
    {{"withdrawal_days", "integer"},
     [](CopyFile& o, const RegisterRow& r) { o.number(r.withdrawal_days); }},
    {{"dwell_s", "integer"}, [](CopyFile& o, const RegisterRow& r) { o.seconds(r.dwell); }},
    {{"seal_s", "integer"}, [](CopyFile& o, const RegisterRow& r) { o.seconds(r.seal); }},
    {{"outcome", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(engine::words(r.outcome)); }},
    {{"operator_name", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.operator_name); }},
    {{"operator_address", "text NOT NULL"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.operator_address); }},
    {{"reason", "text NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.text(r.reason); }},
    {{"note", "text NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.text(r.note); }},
    {{"counts", "boolean NOT NULL"}, [](CopyFile& o, const RegisterRow& r) { o.yes(r.counts()); }},
    {{"struck_because", "text"},
     [](CopyFile& o, const RegisterRow& r) {
       o.text_if(r.struck.has_value(), r.struck ? r.struck->reason : "");
     }},
    {{"supplier", "text"}, [](CopyFile& o, const RegisterRow& r) { o.text(r.supplier); }},
    {{"supplier_address", "text"},
     [](CopyFile& o, const RegisterRow& r) { o.text(r.supplier_address); }},
    {{"receipt", "text"}, [](CopyFile& o, const RegisterRow& r) { o.text(r.receipt); }},
    {{"lot_expiry", "date"},
     [](CopyFile& o, const RegisterRow& r) { r.lot_expiry ? o.day(*r.lot_expiry) : o.unknown(); }},
    {{"days_given", "integer"}, [](CopyFile& o, const RegisterRow& r) { o.number(r.days_given); }},
    {{"against_label", "boolean"},
     [](CopyFile& o, const RegisterRow& r) { o.yes(r.is_against_label()); }},
};

struct RoundRow {
  const engine::Course& course;
  int number;
  const engine::RoundState& round;
};
constexpr Column<RoundRow> kRounds[] = {
    {{"course", "uuid NOT NULL"},
     [](CopyFile& o, const RoundRow& r) { o.text(engine::text(r.course.id)); }},
    {{"number", "integer NOT NULL"}, [](CopyFile& o, const RoundRow& r) { o.number(r.number); }},
    {{"yard", "uuid NOT NULL"},
     [](CopyFile& o, const RoundRow& r) { o.text(engine::text(r.course.yard)); }},
    {{"planned", "date NOT NULL"}, [](CopyFile& o, const RoundRow& r) { o.day(r.round.planned); }},
    {{"walked", "boolean NOT NULL"},
     [](CopyFile& o, const RoundRow& r) { o.yes(r.round.walked.has_value()); }},
    {{"treated", "integer"},
     [](CopyFile& o, const RoundRow& r) { o.number(static_cast<std::int64_t>(r.round.treated)); }},
    {{"colonies", "integer"},
     [](CopyFile& o, const RoundRow& r) { o.number(static_cast<std::int64_t>(r.round.of)); }},
    {{"ended", "boolean NOT NULL"}, [](CopyFile& o, const RoundRow& r) { o.yes(r.course.ended); }},
};

// The middle 80 % of what is believed after the courses that are in (engine/season/kills.h).
struct KillRow {
  std::string vaporizer, name;
  engine::KillBand band;
};
constexpr Column<KillRow> kKills[] = {
    {{"vaporizer", "uuid NOT NULL"}, [](CopyFile& o, const KillRow& r) { o.text(r.vaporizer); }},
    {{"name", "text NOT NULL"}, [](CopyFile& o, const KillRow& r) { o.text(r.name); }},
    {{"courses", "integer NOT NULL"},
     [](CopyFile& o, const KillRow& r) { o.number(static_cast<std::int64_t>(r.band.courses)); }},
    {{"kill_low_percent", "integer NOT NULL"},
     [](CopyFile& o, const KillRow& r) { o.number(percent(r.band.low)); }},
    {{"kill_mid_percent", "integer NOT NULL"},
     [](CopyFile& o, const KillRow& r) { o.number(percent(r.band.mid)); }},
    {{"kill_high_percent", "integer NOT NULL"},
     [](CopyFile& o, const KillRow& r) { o.number(percent(r.band.high)); }},
};

// Ids of yards and colonies in entries that were joined to others, and those they stand for.
constexpr Column<JoinedRow> kJoined[] = {
    {{"id", "uuid NOT NULL"}, [](CopyFile& o, const JoinedRow& r) { o.text(r.id); }},
    {{"stands_for", "uuid NOT NULL"},
     [](CopyFile& o, const JoinedRow& r) { o.text(r.stands_for); }},
};

// As the farm calls the entry; none: it waits.
std::optional<engine::EntryRef> ref_of(const Sealed& s, const ForkTrees& trees) {
  const Record& r = s.record;
  const auto tree = trees.find(r.device);
  const auto id =
      tree == trees.end()
          ? engine::DeviceId{engine::uuid_from_text(r.device).value_or(engine::UuidBytes{})}
          : tree->second.name_of(r.seq, s.hash);
  return id ? std::optional(engine::EntryRef{*id, r.seq}) : std::nullopt;
}

EntryRow entry_row(const Sealed& s, const engine::Farm& farm, const ForkTrees& trees) {
  EntryRow row{s, {}, {}};
  const auto ref = ref_of(s, trees);
  const auto place = ref ? farm.log.find(*ref) : std::nullopt;
  if (!place) return row;
  row.known = farm.log.copy(*place);
  if (engine::find_branch(farm.branches, ref->device) != nullptr) row.side = ref->device;
  return row;
}

Status write_entries(CopyFile& out, SqlExport& from) {
  const Store& store = from.store;
  const auto trees = store.journal().forks();
  if (!trees.ok()) return trees.status();
  const auto all =
      static_cast<std::size_t>(store.journal().size()) + store.journal().sides().size();
  std::int64_t& count = from.written.entries;
  bool stop = false;
  const Status read = store.journal().replay([&](const Sealed& s) {
    if (count % 5000 == 0) stop = stop || from.stopped();
    if (stop) return;
    if (from.progress && count % 5000 == 0)
      from.progress("writing", static_cast<std::size_t>(count), all);
    write_row<kEntries>(out, entry_row(s, store.farm(), trees.value()));
    ++count;
  });
  return stop ? sql_stopped() : read;
}

Status write_yards(CopyFile& out, SqlExport& from) {
  for (const YardRow& yard : from.store.farm().yards) write_row<kYards>(out, yard);
  return {};
}

Status write_colonies(CopyFile& out, SqlExport& from) {
  for (const ColonyRow& colony : from.store.farm().colonies) write_row<kColonies>(out, colony);
  return {};
}

Status write_lots(CopyFile& out, SqlExport& from) {
  for (const LotRow& lot : from.store.farm().lots) write_row<kLots>(out, lot);
  return {};
}

Status write_counts(CopyFile& out, SqlExport& from) {
  const engine::Farm& farm = from.store.farm();
  for (const engine::Count& count : farm.counts) {
    const auto yard = farm.yards.find(farm.colonies.at(count.taken.colony).yard);
    const auto place = yard == farm.yards.end() ? std::nullopt : yard->second.place;
    const auto threshold = engine::threshold_on(farm.setup.thresholds, count.taken.on, place);
    write_row<kCounts>(out, CountRow{count, static_cast<int>(std::lround(threshold.per_100 * 10))});
  }
  return {};
}

Status write_rounds(CopyFile& out, SqlExport& from) {
  for (const auto& [id, course] : from.store.farm().courses) {
    int number = 0;
    for (const engine::RoundState& round : engine::rounds_of(from.store.farm(), course))
      write_row<kRounds>(out, RoundRow{course, ++number, round});
  }
  return {};
}

// Learning takes about a millisecond a course, so the newest courses have to do.
constexpr std::size_t kCoursesLearned = 2000;

// Up to the day of the last count, so that one store gives the same rows on any day.
Status write_kills(CopyFile& out, SqlExport& from) {
  const engine::Farm& farm = from.store.farm();
  engine::Date last{};
  for (const engine::Count& count : farm.counts) last = std::max(last, count.taken.on);
  if (farm.counts.empty()) return {};
  engine::KillSurvey survey(farm, last);
  survey.go_on(farm, kCoursesLearned);
  for (const auto& [kit, learned] : survey.by_vaporizer())
    write_row<kKills>(out, KillRow{engine::text(kit), engine::kit_called(farm, kit),
                                   engine::band_of(learned, engine::usual_dose_g(farm), "")});
  return {};
}

Status write_treatments(CopyFile& out, SqlExport& from) {
  for (const RegisterRow& row : engine::register_rows(from.store.farm(), {})) {
    write_row<kTreatments>(out, row);
    ++from.written.treatments;
  }
  return {};
}

Status write_joined(CopyFile& out, SqlExport& from) {
  const engine::Joins& joins = from.store.farm().log.joins();
  const auto write = [&](const auto& all) {
    for (const auto& [id, to] : all)
      write_row<kJoined>(out, JoinedRow{engine::text(id), engine::text(to)});
  };
  write(joins.yards);
  write(joins.colonies);
  return {};
}

constexpr SqlTable kTables[] = {
    {"entry", "device, seq, hash", columns_of<kEntries>, write_entries},
    {"yard", "yard", columns_of<kYards>, write_yards, "Places where colonies stand"},
    {"colony", "colony", columns_of<kColonies>, write_colonies, "Colonies, each in its yard",
     "yard"},
    {"lot", "lot", columns_of<kLots>, write_lots, "Acid by delivery"},
    {"mite_count", "device, seq", columns_of<kCounts>, write_counts,
     "Counts of mites; threshold_tenths is that of the day, in tenths of mites in 100 bees",
     "colony"},
    {"treatment", "device, seq, colony", columns_of<kTreatments>, write_treatments,
     "The register: each colony of each walk, other treatments, struck ones too"},
    {"joined", "id", columns_of<kJoined>, write_joined,
     "Ids in entries that another one stands for"},
    {"planned_round", "course, number", columns_of<kRounds>, write_rounds,
     "Rounds of courses: treated and colonies count the hives of one that was walked", "yard"},
    {"kill_by_vaporizer", "vaporizer", columns_of<kKills>, write_kills,
     "What a round kills of the mites in reach, learned from the courses of each vaporizer"},
};

}  // namespace

std::span<const SqlTable> sql_tables() { return kTables; }

std::string file_of(const SqlTable& table) { return std::string(table.name) + ".copy"; }

Status sql_stopped() { return {Code::Failed, "stopped: no tables were written"}; }

}  // namespace storage
