#!/usr/bin/env bash
# The tables of `bundle --sql` in a real PostgreSQL of its own (no network, a socket in a folder):
# counts and sums are those of the program's own register. 77: PostgreSQL is not installed.
# Usage: sql_load.sh DUSKWALK PLAYED_FOLDER
set -u
office=$(cd "$(dirname "$0")/../../packaging/office" && pwd) || exit 1
duskwalk=$1
played=$2
bin=$(ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -n 1)
if [ -z "$bin" ] || ! command -v psql >/dev/null; then
  echo "PostgreSQL is not installed"
  exit 77
fi
work=$(mktemp -d) || exit 1
chmod 755 "$work"
bad=0
fail() { echo "FAILED: $*"; bad=1; }
unset DUSKWALK_STORE
as=()
if [ "$(id -u)" = 0 ]; then # the server refuses to run as root
  getent passwd postgres >/dev/null || { echo "no user to run PostgreSQL as"; exit 77; }
  as=(setpriv --reuid=postgres --regid=postgres --clear-groups)
  mkdir "$work/db" && chown postgres "$work/db"
else
  mkdir "$work/db"
fi
stop() {
  "${as[@]}" "$bin/pg_ctl" -D "$work/db/data" -m immediate -w stop >/dev/null 2>&1
  rm -rf "$work"
}
trap stop EXIT
cd "$work" || exit 1
"${as[@]}" "$bin/initdb" -D "$work/db/data" -A trust -U office -E UTF8 --locale=C -N >"$work/initdb" 2>&1 ||
  { cat "$work/initdb"; exit 1; }
"${as[@]}" "$bin/pg_ctl" -D "$work/db/data" -w -l "$work/db/log" \
  -o "-c listen_addresses='' -c unix_socket_directories='$work/db' -c fsync=off" start >/dev/null ||
  { cat "$work/db/log"; exit 1; }
ask() { psql -h "$work/db" -U office -d postgres -AtX -v ON_ERROR_STOP=1 "$@"; }

# ---- the evening that was played, and names that want escaping ----
for file in "$played/evening.journal"*; do cp "$file" "$work/" || fail "no $file"; done
store=$work/evening.journal
printf 'yard,note\n"Tab\tand \\\\N, ""quoted""; =1+1","line one\nline two"\n' >"$work/odd.csv"
"$duskwalk" read "$work/odd.csv" --store "$store" >/dev/null || fail "read odd.csv"
said=$("$duskwalk" bundle --sql "$work/sql" --store "$store") || fail "bundle --sql"
entries=$(echo "$said" | sed -n 's/.*: \([0-9]*\) entries.*/\1/p')
"$duskwalk" register --out "$work/register.csv" --store "$store" >/dev/null || fail "register"

# ---- loading ----
(cd "$work/sql" && ask -q -f load.sql) || fail "load.sql"
same() { # what, theirs, ours
  [ "$2" = "$3" ] || fail "$1: $2 in PostgreSQL, $3 here"
}
same "entries" "$(ask -c 'SELECT count(*) FROM duskwalk.entry')" "$entries"
same "broken chains" "$(ask -c "SELECT count(*) FROM duskwalk.entry WHERE hash <> sha256(prev || convert_to(event, 'UTF8'))")" 0
same "bodies" "$(ask -c "SELECT count(*) FROM duskwalk.entry WHERE (event::jsonb -> 'body') <> body OR (event::jsonb ->> 'kind') <> kind")" 0
read -r rows milligrams treated colonies <<<"$(/usr/bin/python3 - "$work/register.csv" <<'P'
import csv, sys
rows = list(csv.DictReader(open(sys.argv[1], encoding="utf-8-sig", newline="")))
milligrams = sum(int(r["dose_mg"]) for r in rows if r["dose_mg"])
treated = sum(1 for r in rows if r.get("outcome", "").startswith("treated"))
print(len(rows), milligrams, treated, len({r["colony"] for r in rows}))
P
)"
same "rows of the register" "$(ask -c 'SELECT count(*) FROM duskwalk.treatment')" "$rows"
same "milligrams" "$(ask -c 'SELECT (coalesce(sum(dose_g), 0) * 1000)::bigint FROM duskwalk.treatment')" "$milligrams"
same "treated" "$(ask -c "SELECT count(*) FROM duskwalk.treatment WHERE outcome LIKE 'treated%'")" "$treated"
same "colonies treated" "$(ask -c 'SELECT count(DISTINCT colony_name) FROM duskwalk.treatment')" "$colonies"

# ---- the views say what the program says ----
"$duskwalk" due --json --on 2026-08-20 --store "$store" >"$work/due.json" || fail "due"
same "rounds due" "$(ask -c "SELECT yard_name, round, of_rounds, planned, course FROM duskwalk.due_by_yard ORDER BY 5")" \
  "$(/usr/bin/python3 - "$work/due.json" <<'P'
import json, sys
due = json.load(open(sys.argv[1]))
rows = [(r["yard"], r["round"], r["of"], r["planned"], r["course"]) for r in due["rounds"] + due["coming"]]
print("\n".join("|".join(map(str, r)) for r in sorted(rows, key=lambda r: r[4])))
P
)"
[ "$(ask -c 'SELECT count(*) FROM duskwalk.due_by_yard')" != 0 ] || fail "no round is due"
same "struck, and by which entry" "$(ask -c "SELECT count(*) FROM duskwalk.struck WHERE struck_by_seq > seq AND reason <> ''")" \
  "$(ask -c "SELECT count(*) FROM duskwalk.entry WHERE struck_because IS NOT NULL")"
same "why it was struck" "$(ask -c "SELECT reason FROM duskwalk.struck WHERE kind = 'vaporizer_set'")" "Wrong button"
given=$(ask -c "SELECT count(*) FROM duskwalk.treatment WHERE counts AND outcome LIKE 'treated%'")
for law in eu uk us; do
  same "treatments, $law" "$(ask -c "SELECT count(*) FROM duskwalk.treatment_$law")" "$given"
  [ -n "$(ask -c "SELECT obj_description('duskwalk.treatment_$law'::regclass)")" ] || fail "treatment_$law has no comment"
done
same "left of the lots" "$(ask -c "SELECT round(sum(left_g) * 1000) FROM duskwalk.lots_left")" \
  "$(ask -c "SELECT round(sum(received_g - used_g - disposed_g) * 1000) FROM duskwalk.lot")"
# A reader reads and does not write.
same "a reader" "$(ask -q -c "SET ROLE duskwalk_reader" -c "SELECT count(*) FROM duskwalk.treatment_eu")" "$given"
ask -q -c "SET ROLE duskwalk_reader" -c "DELETE FROM duskwalk.entry" 2>"$work/err" && fail "a reader deleted entries"
grep -q "permission denied" "$work/err" || fail "a reader was not refused: $(cat "$work/err")"
# Twelve of 300 are over the usual 3 in 100 of August; one is not.
printf 'yard,colony\nOver,O1\nOver,O2\n' >"$work/over.csv"
printf 'yard,colony,date,mites,bees,method\nOver,O1,2026-08-03,12,300,alcohol wash\nOver,O2,2026-08-03,1,300,alcohol wash\n' >"$work/over_counts.csv"
for sheet in over over_counts; do
  "$duskwalk" read "$work/$sheet.csv" --store "$work/over.journal" >/dev/null || fail "read $sheet"
done
"$duskwalk" bundle --sql "$work/sql_over" --store "$work/over.journal" >/dev/null || fail "tables of counts"
(cd "$work/sql_over" && ask -q -f load.sql) || fail "load counts"
same "over the threshold" "$(ask -c "SELECT colony_name, mites_per_100 FROM duskwalk.over_threshold WHERE yard_name = 'Over'")" "O1|4.0"
# A server that an earlier version made the tables of gets what they lack.
ask -q -c "ALTER TABLE duskwalk.treatment_of_export DROP COLUMN against_label CASCADE" 2>/dev/null
(cd "$work/sql_over" && ask -q -f load.sql) || fail "load into older tables"
same "a column that was not there" "$(ask -c "SELECT count(*) FROM information_schema.columns WHERE table_schema = 'duskwalk' AND table_name = 'treatment' AND column_name = 'against_label'")" 1
ask -q -c 'DROP SCHEMA duskwalk CASCADE' 2>/dev/null
(cd "$work/sql" && ask -q -f load.sql) || fail "load.sql once more"

# ---- and back out as it was written ----
(cd "$work" && ask -q -c "\\copy (SELECT yard, name, zone, note FROM duskwalk.yard) TO 'yard.back'")
sort <(cut -f 1,2,5,6 "$work/sql/yard.copy") | cmp -s - <(sort "$work/yard.back") ||
  fail "yards are not what was written"

# ---- the office's scripts: a page, a backup, and a restore that is tried ----
export POSTGRES="postgresql://office@/postgres?host=$work/db" STATE="$work/office" STORE="$store"
mkdir "$work/office" "$work/bin" && ln -s "$duskwalk" "$work/bin/duskwalk"
PATH="$work/bin:$PATH"
"$office/office-page" || fail "office-page"
page=$work/office/page/index.html
/usr/bin/python3 - "$page" <<'P' || fail "the page is not well formed, or lacks something"
import html.parser, sys
class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.open, self.words = [], []
    def handle_starttag(self, tag, attributes):
        if tag == "script": sys.exit("a script")
        if tag not in ("meta", "br"): self.open.append(tag)
    def handle_endtag(self, tag):
        if self.open.pop() != tag: sys.exit(f"</{tag}> closes another")
    def handle_data(self, text): self.words.append(text)
page = Page()
page.feed(open(sys.argv[1], encoding="utf-8").read())
words = " ".join(page.words)
for want in ("Alder Bend", "2 of 4", "Wrong button", "W26-03"):
    if want not in words: sys.exit(f"no {want}")
if page.open: sys.exit(f"left open: {page.open}")
P
"$office/office-backup" >"$work/said" || fail "office-backup"
dump=$(ls "$work"/office/backup/*.dump)
"$office/office-try-restore" "$dump" >"$work/said" 2>&1 || fail "office-try-restore: $(cat "$work/said")"
grep -q "every table came back" "$work/said" || fail "$(cat "$work/said")"
same "databases left behind" "$(ask -c "SELECT count(*) FROM pg_database WHERE datname LIKE 'duskwalk_try%'")" 0
# A dump that lacks a row is told apart.
ask -q -c "CREATE TABLE duskwalk.extra AS SELECT 1 AS x" && "$office/office-backup" >/dev/null
newest=$(ls "$work"/office/backup/*.dump | tail -n 1)
ask -q -c "INSERT INTO duskwalk.extra VALUES (2)"
"$office/office-try-restore" "$newest" >"$work/said" 2>&1 && fail "a dump that lacks a row passed"
grep -q "^extra: " "$work/said" || fail "$(cat "$work/said")"
ask -q -c "DROP TABLE duskwalk.extra"
if command -v systemd-analyze >/dev/null; then
  # Only what the units say is looked at: their programs are not installed here.
  systemd-analyze verify "$office"/*.service "$office"/*.timer 2>&1 |
    grep -E "duskwalk-office" | grep -vE "is not executable|not found|Failed to create" >"$work/units" &&
    fail "units: $(cat "$work/units")"
fi

# ---- again, and together with another tablet's: any order and number, the end is the same ----
# load FOLDER...: into an empty schema
load() {
  ask -q -c 'DROP SCHEMA IF EXISTS duskwalk CASCADE' 2>/dev/null
  for folder in "$@"; do
    (cd "$folder" && ask -q -f load.sql) || fail "load.sql of $*"
  done
}
# Every row of what people ask for, in an order of its own.
all_rows() {
  for table in entry yard colony lot mite_count treatment joined planned_round kill_by_vaporizer struck dictionary; do
    echo "== $table"
    ask -c "SELECT t FROM duskwalk.$table t ORDER BY t::text"
  done
}
other=$work/other.journal
"$duskwalk" read "$work/odd.csv" --store "$other" >/dev/null || fail "read on the other tablet"
printf 'yard,colony\nTab,Z9\n' >"$work/more.csv"
"$duskwalk" read "$work/more.csv" --store "$other" >/dev/null || fail "read more there"
"$duskwalk" bundle --sql "$work/sql_other" --store "$other" >/dev/null || fail "the other's tables"
# A third has all entries of both.
mkdir "$work/bags"
"$duskwalk" bundle "$work/bags" --store "$store" >/dev/null || fail "bundle"
"$duskwalk" bundle "$work/bags" --store "$other" >/dev/null || fail "bundle of the other"
"$duskwalk" merge "$work/bags" --store "$work/both.journal" >/dev/null || fail "merge"
"$duskwalk" bundle --sql "$work/sql_both" --store "$work/both.journal" >/dev/null || fail "all tables"
load "$work/sql_both"
all_rows >"$work/fresh"
grep -q "Z9" "$work/fresh" || fail "the other tablet's colony is not there"
for order in "sql_both sql_both" "sql sql_other sql_both" "sql_both sql sql_other" \
  "sql_other sql_both sql sql" "sql_other sql sql_other sql_both"; do
  folders=()
  for name in $order; do folders+=("$work/$name"); done
  load "${folders[@]}"
  all_rows | cmp -s - "$work/fresh" || { all_rows | diff - "$work/fresh" | head -5; fail "order: $order"; }
done
load "$work/sql" "$work/sql_other"
all_rows >"$work/one_way"
load "$work/sql_other" "$work/sql" "$work/sql_other"
all_rows | cmp -s - "$work/one_way" || fail "two tablets' exports: the order makes a difference"
[ "$(ask -c "SELECT count(*) FROM duskwalk.dictionary WHERE meaning = ''")" = 0 ] || fail "dictionary"
ask -c "SELECT col_description('duskwalk.entry'::regclass, 5)" | grep -q "^vaporizer_set: " ||
  fail "the kinds have no comment"

# ---- the same by exchange --postgres: any order and number, and a server that goes away ----
url="postgresql://office@/postgres?host=$work/db"
mkdir "$work/folder"
direct() { # STORE...: into an empty schema
  ask -q -c 'DROP SCHEMA IF EXISTS duskwalk CASCADE' 2>/dev/null
  for name in "$@"; do
    # Each with a folder of its own, so that no store learns from another.
    mkdir -p "$work/folder/$name"
    "$duskwalk" exchange "$work/folder/$name" --postgres "$url" --store "$work/$name.journal" \
      >"$work/said" 2>&1 || fail "exchange --postgres of $name: $(cat "$work/said")"
  done
}
for order in "both" "both both" "evening other both" "both other evening" "other both evening evening"; do
  # shellcheck disable=SC2086
  direct $order
  all_rows | cmp -s - "$work/fresh" || { all_rows | diff - "$work/fresh" | head -5; fail "exchange --postgres: $order"; }
done
direct both
grep -q "PostgreSQL has .* entries" "$work/said" || fail "what was loaded was not said"
# psql's files and the direct way lead to the same rows.
(cd "$work/sql_other" && ask -q -f load.sql) || fail "load.sql after exchange"
all_rows | cmp -s - "$work/fresh" || fail "files after exchange"
# The server ends the connection in mid-load: one line, nothing changed; the next load has all.
direct other
all_rows >"$work/before"
ask -q -c "BEGIN; SELECT pg_advisory_xact_lock(hashtext('duskwalk')); SELECT pg_sleep(2); COMMIT" >/dev/null &
locker=$!
sleep 0.5
"$duskwalk" exchange "$work/folder/both" --postgres "$url" --store "$work/both.journal" >"$work/said" 2>"$work/err" &
loader=$!
for _ in $(seq 20); do
  sleep 0.1
  waits=$(ask -c "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity WHERE application_name = 'duskwalk'")
  [ "$waits" = 0 ] || break
done
[ "$waits" = 1 ] || fail "no load was found to be cut off ($waits)"
wait $loader && fail "a load that was cut off went through"
wait $locker
[ "$(wc -l <"$work/err")" = 1 ] || fail "not one line: $(cat "$work/err")"
grep -q "PostgreSQL: .*Nothing was changed there" "$work/err" || fail "$(cat "$work/err")"
all_rows | cmp -s - "$work/before" || fail "a load that was cut off left something"
"$duskwalk" exchange "$work/folder/both" --postgres "$url" --store "$work/both.journal" >/dev/null || fail "again"
all_rows | cmp -s - "$work/fresh" || fail "after a load that was cut off"
"$duskwalk" exchange "$work/folder/both" --postgres "postgresql://office:secret@/nowhere?host=$work/db" \
  --store "$work/both.journal" >/dev/null 2>"$work/err" && fail "a database that is not there"
grep -q 'PostgreSQL: .*nowhere' "$work/err" || fail "$(cat "$work/err")"
grep -q "secret" "$work/err" && fail "the password was shown"

fails() { if "$@" >/dev/null 2>"$work/err"; then fail "went through: $*"; fi; }
fails "$duskwalk" bundle --sql "$work/sql" --store "$store"
grep -q "exists" "$work/err" || fail "an existing file was not named"

[ $bad = 0 ] && echo "PostgreSQL $(ask -c 'SHOW server_version') agrees: $entries entries, $rows rows, $((milligrams / 1000)) g"
exit $bad
