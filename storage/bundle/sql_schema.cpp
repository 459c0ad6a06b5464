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

std::string table_sql(const SqlTable& t) {
  if (is_entries(t))
    return fmt::format(
        "CREATE TABLE IF NOT EXISTS duskwalk.entry ({}, known bigint NOT NULL, export text NOT "
        "NULL, PRIMARY KEY ({}));\nCREATE INDEX IF NOT EXISTS entry_kind ON duskwalk.entry "
        "(kind);\n",
        columns_of(t, true), t.key);
  return fmt::format(
      "CREATE TABLE IF NOT EXISTS duskwalk.{0}_of_export (export text NOT NULL REFERENCES "
      "duskwalk.export ON DELETE CASCADE, {1}, PRIMARY KEY (export, {2}));\n"
      "CREATE OR REPLACE VIEW duskwalk.{0} AS SELECT {3} FROM (SELECT DISTINCT ON ({2}) o.* FROM "
      "duskwalk.{0}_of_export o JOIN duskwalk.export e USING (export) ORDER BY {2}, e.known DESC, "
      "export DESC) AS newest;\n",
      t.name, columns_of(t, true), t.key, columns_of(t, false));
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
      columns_of(t, true), file_of(t));
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

std::string sql_schema() {
  std::string sql =
      "CREATE SCHEMA IF NOT EXISTS duskwalk;\n"
      "CREATE TABLE IF NOT EXISTS duskwalk.export (export text PRIMARY KEY, known bigint NOT "
      "NULL);\n"
      "CREATE TABLE IF NOT EXISTS duskwalk.knows (export text NOT NULL REFERENCES duskwalk.export "
      "ON DELETE CASCADE, device uuid NOT NULL, last bigint NOT NULL, PRIMARY KEY (export, "
      "device));\n";
  for (const SqlTable& t : sql_tables()) sql += table_sql(t);
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
  for (const SqlTable& t : sql_tables()) sql += load_table(t);
  return sql + std::string(kDropCovered) + "COMMIT;\n";
}

}  // namespace storage
