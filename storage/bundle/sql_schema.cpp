// How an export gets into the tables of the office.
#include "storage/bundle/sql_schema.h"

#include <fmt/format.h>

#include "storage/bundle/sql_tables.h"
#include "storage/disk/sha256.h"
#include "storage/store/data_dictionary.h"

namespace storage {
namespace {

bool is_entries(const SqlTable& table) { return std::string_view(table.name) == "entry"; }

// Its columns one after the other, with their types or without.
std::string columns_of(const SqlTable& table, bool typed) {
  std::string all;
  for (const SqlColumn& c : table.columns())
    all += fmt::format("{}{}{}{}", all.empty() ? "" : ", ", c.name, typed ? " " : "",
                       typed ? c.type : "");
  return all;
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

// An earlier version may have made the table: what it lacks comes behind its columns, in the order
// in which columns are added to sql_tables.cpp, at the end.
std::string added_columns(const SqlTable& t, const std::string& table) {
  std::string sql;
  for (const SqlColumn& c : t.columns())
    sql += fmt::format("{} ADD COLUMN IF NOT EXISTS {} {}", sql.empty() ? "" : ",", c.name, c.type);
  return fmt::format("ALTER TABLE duskwalk.{}{};\n", table, sql);
}

std::string entry_sql(const SqlTable& t) {
  return fmt::format(
             "CREATE TABLE IF NOT EXISTS duskwalk.entry ({}, known bigint NOT NULL, export text "
             "NOT "
             "NULL, PRIMARY KEY ({}));\n",
             columns_of(t, true), t.key) +
         added_columns(t, "entry") +
         "CREATE INDEX IF NOT EXISTS entry_kind ON duskwalk.entry (kind);\n";
}

std::string table_sql(const SqlTable& t) {
  if (is_entries(t)) return entry_sql(t);
  const std::string_view refers = t.refers;
  const std::string foreign =
      refers.empty() ? ""
                     : fmt::format(
                           ", FOREIGN KEY (export, {0}) REFERENCES duskwalk.{0}_of_export "
                           "ON DELETE CASCADE",
                           refers);
  return fmt::format(
             "CREATE TABLE IF NOT EXISTS duskwalk.{}_of_export (export text NOT NULL REFERENCES "
             "duskwalk.export ON DELETE CASCADE, {}, PRIMARY KEY (export, {}){});\n",
             t.name, columns_of(t, true), t.key, foreign) +
         added_columns(t, std::string(t.name) + "_of_export") +
         fmt::format(
             "CREATE OR REPLACE VIEW duskwalk.{0} AS SELECT {2} FROM (SELECT DISTINCT ON ({1}) o.* "
             "FROM duskwalk.{0}_of_export o JOIN duskwalk.export e USING (export) ORDER BY {1}, "
             "e.known DESC, export DESC) AS newest;\nCOMMENT ON VIEW duskwalk.{0} IS '{3}';\n",
             t.name, t.key, columns_of(t, false), t.says);
}

// An export whose entries another one all has says nothing more: its rows go.
constexpr std::string_view kDropCovered =
    "DELETE FROM duskwalk.export e WHERE EXISTS (SELECT FROM duskwalk.export o WHERE o.export <> "
    "e.export AND NOT EXISTS (SELECT FROM duskwalk.knows k WHERE k.export = e.export AND NOT "
    "EXISTS (SELECT FROM duskwalk.knows l WHERE l.export = o.export AND l.device = k.device AND "
    "l.last >= k.last)));\n";

}  // namespace

std::string sql_schema() {
  std::string sql =
      "CREATE SCHEMA IF NOT EXISTS duskwalk;\n"
      "CREATE TABLE IF NOT EXISTS duskwalk.export (export text PRIMARY KEY, known bigint NOT "
      "NULL);\n"
      "CREATE TABLE IF NOT EXISTS duskwalk.knows (export text NOT NULL REFERENCES duskwalk.export "
      "ON DELETE CASCADE, device uuid NOT NULL, last bigint NOT NULL, PRIMARY KEY (export, "
      "device));\n";
  for (const SqlTable& t : sql_tables()) sql += table_sql(t);
  return sql + dictionary_sql() + sql_views();
}

SqlNames::SqlNames(const engine::Farm& farm) : known(farm.log.size()) {
  std::string lines;
  for (const auto& [device, last] : farm.last_seq) {
    lines += fmt::format("{} {}\n", engine::text(device), last);
    devices.emplace_back(engine::text(device), last);
  }
  name = hex(sha256(lines)).substr(0, 32);
}

std::string begin_sql() { return "BEGIN;\nSELECT pg_advisory_xact_lock(hashtext('duskwalk'));\n"; }

std::string export_sql(const SqlNames& names) {
  std::string sql = fmt::format(
      "DELETE FROM duskwalk.export WHERE export = '{0}';\n"
      "INSERT INTO duskwalk.export VALUES ('{0}', {1});\n",
      names.name, names.known);
  for (const auto& [device, last] : names.devices)
    sql += fmt::format("INSERT INTO duskwalk.knows VALUES ('{}', '{}', {});\n", names.name, device,
                       last);
  return sql;
}

std::string stage_sql(const SqlTable& t) {
  return fmt::format("CREATE TEMP TABLE staged_{} ({}) ON COMMIT DROP;\n", t.name,
                     columns_of(t, true));
}

std::string upsert_sql(const SqlTable& t, const SqlNames& names) {
  if (!is_entries(t))
    return fmt::format(
        "INSERT INTO duskwalk.{0}_of_export (export, {1}) SELECT '{2}', {1} FROM staged_{0} ON "
        "CONFLICT DO NOTHING;\n",
        t.name, columns_of(t, false), names.name);
  return fmt::format(
      "INSERT INTO duskwalk.entry AS there ({0}, known, export) SELECT {0}, {1}, '{2}' FROM "
      "staged_entry ON CONFLICT (device, seq, hash) DO UPDATE SET counts = EXCLUDED.counts, "
      "struck_because = EXCLUDED.struck_because, side = EXCLUDED.side, known = EXCLUDED.known, "
      "export = EXCLUDED.export WHERE (there.known, there.export) < (EXCLUDED.known, "
      "EXCLUDED.export);\n",
      columns_of(t, false), names.known, names.name);
}

std::string end_sql() { return std::string(kDropCovered) + "COMMIT;\n"; }

std::string sql_load(const engine::Farm& farm) {
  const SqlNames names(farm);
  // psql prints no answers of the lock.
  std::string sql =
      "\\set ON_ERROR_STOP on\n\\o /dev/null\nSET client_encoding = 'UTF8';\n"
      "SET client_min_messages = warning;\n" +
      begin_sql() + "\\i schema.sql\n" + export_sql(names);
  for (const SqlTable& t : sql_tables())
    sql += stage_sql(t) + fmt::format("\\copy staged_{} FROM '{}'\n", t.name, file_of(t)) +
           upsert_sql(t, names);
  return sql + end_sql() + "\\o\n";
}

}  // namespace storage
