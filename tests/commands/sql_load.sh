#!/usr/bin/env bash
# The tables of `bundle --sql` in a real PostgreSQL of its own (no network, a socket in a folder):
# counts and sums are those of the program's own register. 77: PostgreSQL is not installed.
# Usage: sql_load.sh DUSKWALK DEMO_FOLDER
set -u
duskwalk=$1
demo=$2
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

# ---- a store with something of everything, names that want escaping among it ----
store=$work/farm.journal
printf 'yard,note\n"Tab\tand \\\\N, ""quoted""; =1+1","line one\nline two"\n' >"$work/odd.csv"
for sheet in "$demo/yards.csv" "$demo/colonies.csv" "$demo/counts.csv" "$work/odd.csv"; do
  "$duskwalk" read "$sheet" --store "$store" >/dev/null || fail "read $sheet"
done
"$duskwalk" play "$demo/evening.play" --out "$work/pictures" --store "$work/played.journal" \
  >/dev/null 2>&1 || fail "play the evening"
store=$work/played.journal
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

# ---- and back out as it was written ----
(cd "$work" && ask -q -c "\\copy (SELECT yard, name, zone, note FROM duskwalk.yard) TO 'yard.back'")
sort <(cut -f 1,2,5,6 "$work/sql/yard.copy") | cmp -s - <(sort "$work/yard.back") ||
  fail "yards are not what was written"
fails() { if "$@" >/dev/null 2>"$work/err"; then fail "went through: $*"; fi; }
fails "$duskwalk" bundle --sql "$work/sql" --store "$store"
grep -q "exists" "$work/err" || fail "an existing file was not named"

[ $bad = 0 ] && echo "PostgreSQL $(ask -c 'SHOW server_version') agrees: $entries entries, $rows rows, $((milligrams / 1000)) g"
exit $bad
