// The tables of the office, and how an export gets into them.
#include "storage/bundle/sql_schema.h"

#include <fmt/format.h>

#include <algorithm>

#include "storage/disk/sha256.h"
#include "storage/store/data_dictionary.h"

namespace storage {
namespace {

constexpr SqlTable kTables[] = {
    {"entry",
     "device uuid NOT NULL, seq bigint NOT NULL, at timestamptz NOT NULL, "
     "zone_offset_min integer NOT NULL, kind text NOT NULL, body jsonb NOT NULL, "
     "event text NOT NULL, prev bytea NOT NULL, hash bytea NOT NULL, counts boolean, "
     "struck_because text, side uuid",
     "device, seq, hash"},
    {"yard",
     "yard uuid NOT NULL, name text NOT NULL, lat double precision, lon double precision, "
     "zone text NOT NULL, note text NOT NULL, given_up boolean NOT NULL",
     "yard"},
    {"colony",
     "colony uuid NOT NULL, yard uuid NOT NULL, name text NOT NULL, brood_boxes integer NOT "
     "NULL, supers_on boolean NOT NULL, note text NOT NULL, lost boolean NOT NULL",
     "colony"},
    {"lot",
     "lot uuid NOT NULL, product text NOT NULL, registration text NOT NULL, code text NOT NULL, "
     "expiry date, supplier text NOT NULL, receipt text NOT NULL, received_g numeric NOT NULL, "
     "used_g numeric NOT NULL, disposed_g numeric NOT NULL",
     "lot"},
    {"mite_count",
     "device uuid NOT NULL, seq bigint NOT NULL, colony uuid NOT NULL, day date NOT NULL, "
     "method text NOT NULL, mites integer NOT NULL, bees integer, hours integer",
     "device, seq"},
    // A walk that was closed early has rows for the colonies that it did not reach.
    {"treatment",
     "device uuid NOT NULL, seq bigint NOT NULL, day date NOT NULL, at timestamptz, yard uuid, "
     "yard_name text NOT NULL, colony uuid NOT NULL, colony_name text NOT NULL, method text NOT "
     "NULL, product text NOT NULL, registration text NOT NULL, lot_code text NOT NULL, dose_g "
     "numeric, dose_words text NOT NULL, basis text NOT NULL, brood_boxes integer, supers_on "
     "boolean, withdrawal_days integer, dwell_s integer, seal_s integer, outcome text NOT NULL, "
     "operator_name text NOT NULL, operator_address text NOT NULL, reason text NOT NULL, "
     "note text NOT NULL, counts boolean NOT NULL, struck_because text",
     "device, seq, colony"},
    // Ids of yards and colonies in entries that were joined to others, and those they stand for.
    {"joined", "id uuid NOT NULL, stands_for uuid NOT NULL", "id"},
};

bool is_entries(const SqlTable& table) { return std::string_view(table.name) == "entry"; }

// The names of its columns, which stand before their types.
std::string names_of(const SqlTable& table) {
  std::string names;
  std::string_view rest = table.columns;
  while (!rest.empty()) {
    const std::string_view column = rest.substr(0, rest.find(','));
    names += (names.empty() ? "" : ", ") + std::string(column.substr(0, column.find(' ')));
    rest.remove_prefix(std::min(column.size() + 2, rest.size()));
  }
  return names;
}

// Within single quotes of SQL.
std::string literal(std::string_view text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("''") : std::string(1, c);
  return out + "'";
}

// The data dictionary as a table, and the kinds once more as the comment of their column.
std::string dictionary_sql() {
  std::string sql =
      "CREATE TABLE IF NOT EXISTS duskwalk.dictionary (kind text, field text, type text NOT NULL, "
      "unit text NOT NULL, may_be_missing boolean NOT NULL, meaning text NOT NULL, PRIMARY KEY "
      "(kind, field));\n";
  std::string kinds;
  const DataDictionary all = data_dictionary();
  for (const auto* list : {&all.kinds, &all.parts})
    for (const DictionaryEntry& entry : *list) {
      if (list == &all.kinds) kinds += fmt::format("{}: {}\n", entry.name, entry.meaning);
      for (const FieldEntry& f : entry.fields)
        sql += fmt::format(
            "INSERT INTO duskwalk.dictionary VALUES ({}, {}, {}, {}, {}, {}) ON CONFLICT DO "
            "NOTHING;\n",
            literal(entry.name), literal(f.name), literal(f.type), literal(f.unit),
            f.may_be_missing, literal(f.meaning));
    }
  sql += fmt::format("COMMENT ON COLUMN duskwalk.entry.kind IS {};\n", literal(kinds));
  return sql +
         "COMMENT ON COLUMN duskwalk.entry.body IS 'Fields by kind: see duskwalk.dictionary';\n"
         "COMMENT ON COLUMN duskwalk.entry.counts IS 'Neither struck nor without effect';\n"
         "COMMENT ON TABLE duskwalk.dictionary IS 'What each field of an entry means';\n";
}

std::string table_sql(const SqlTable& t) {
  if (is_entries(t))
    return fmt::format(
        "CREATE TABLE IF NOT EXISTS duskwalk.entry ({}, known bigint NOT NULL, export text NOT "
        "NULL, PRIMARY KEY ({}));\nCREATE INDEX IF NOT EXISTS entry_kind ON duskwalk.entry "
        "(kind);\n",
        t.columns, t.key);
  return fmt::format(
      "CREATE TABLE IF NOT EXISTS duskwalk.{0}_of_export (export text NOT NULL REFERENCES "
      "duskwalk.export ON DELETE CASCADE, {1}, PRIMARY KEY (export, {2}));\n"
      "CREATE OR REPLACE VIEW duskwalk.{0} AS SELECT {3} FROM (SELECT DISTINCT ON ({2}) o.* FROM "
      "duskwalk.{0}_of_export o JOIN duskwalk.export e USING (export) ORDER BY {2}, e.known DESC, "
      "export DESC) AS newest;\n",
      t.name, t.columns, t.key, names_of(t));
}

// An export whose entries another one all has says nothing more: its rows go.
constexpr std::string_view kDropCovered =
    "DELETE FROM duskwalk.export e WHERE EXISTS (SELECT FROM duskwalk.export o WHERE o.export <> "
    "e.export AND NOT EXISTS (SELECT FROM duskwalk.knows k WHERE k.export = e.export AND NOT "
    "EXISTS (SELECT FROM duskwalk.knows l WHERE l.export = o.export AND l.device = k.device AND "
    "l.last >= k.last)));\n";

// Which entries a store had: how many, and up to which number of each tablet or side of a fork. The
// same entries have the same name, whichever tablet exports them.
struct Export {
  std::string name, knows;
  std::size_t known = 0;

  explicit Export(const engine::Farm& farm) : known(farm.log.size()) {
    std::string lines;
    for (const auto& [device, last] : farm.last_seq) {
      lines += fmt::format("{} {}\n", engine::text(device), last);
      knows += fmt::format("{}(:'export', '{}', {})", knows.empty() ? "" : ", ",
                           engine::text(device), last);
    }
    name = hex(sha256(lines)).substr(0, 32);
  }
};

std::string load_table(const SqlTable& t) {
  std::string sql = fmt::format(
      "CREATE TEMP TABLE staged_{0} ({1}) ON COMMIT DROP;\n\\copy staged_{0} FROM '{2}'\n", t.name,
      t.columns, file_of(t));
  if (!is_entries(t))
    return sql + fmt::format(
                     "INSERT INTO duskwalk.{0}_of_export SELECT :'export', * FROM "
                     "staged_{0} ON CONFLICT DO NOTHING;\n",
                     t.name);
  return sql +
         "INSERT INTO duskwalk.entry AS there SELECT *, :known, :'export' FROM staged_entry ON "
         "CONFLICT (device, seq, hash) DO UPDATE SET counts = EXCLUDED.counts, struck_because = "
         "EXCLUDED.struck_because, side = EXCLUDED.side, known = EXCLUDED.known, export = "
         "EXCLUDED.export WHERE (there.known, there.export) < (EXCLUDED.known, EXCLUDED.export);\n";
}

}  // namespace

std::span<const SqlTable> sql_tables() { return kTables; }

std::string file_of(const SqlTable& table) { return std::string(table.name) + ".copy"; }

std::string sql_schema() {
  std::string sql =
      "CREATE SCHEMA IF NOT EXISTS duskwalk;\n"
      "CREATE TABLE IF NOT EXISTS duskwalk.export (export text PRIMARY KEY, known bigint NOT "
      "NULL);\n"
      "CREATE TABLE IF NOT EXISTS duskwalk.knows (export text NOT NULL REFERENCES duskwalk.export "
      "ON DELETE CASCADE, device uuid NOT NULL, last bigint NOT NULL, PRIMARY KEY (export, "
      "device));\n";
  for (const SqlTable& t : kTables) sql += table_sql(t);
  return sql + dictionary_sql();
}

std::string sql_load(const engine::Farm& farm) {
  const Export mine(farm);
  std::string sql = fmt::format(
      "\\set ON_ERROR_STOP on\nSET client_encoding = 'UTF8';\nSET client_min_messages = "
      "warning;\n\\set export '{}'\n\\set known {}\nBEGIN;\nSELECT "
      "pg_advisory_xact_lock(hashtext('duskwalk')) \\g /dev/null\n\\i schema.sql\n"
      "DELETE FROM duskwalk.export WHERE export = :'export';\n"
      "INSERT INTO duskwalk.export VALUES (:'export', :known);\n",
      mine.name, mine.known);
  if (!mine.knows.empty()) sql += "INSERT INTO duskwalk.knows VALUES " + mine.knows + ";\n";
  for (const SqlTable& t : kTables) sql += load_table(t);
  return sql + std::string(kDropCovered) + "COMMIT;\n";
}

}  // namespace storage
