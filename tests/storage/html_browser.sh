#!/bin/sh
# report.html in a headless browser: what it shows, that nothing runs, that nothing is asked of any
# server, and how it breaks on paper. Usage: html_browser.sh WRITE_PAYLOAD
# Exit 77: a program is not installed, and the line says which half was not looked at.
set -eu
browser=$(command -v chromium || true)
[ -n "$browser" ] || { echo "skipped: chromium is not installed"; exit 77; }
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$1" hostile "$dir"
fail() { echo "html: $1" >&2; exit 1; }
open_in() {  # profile, then options and the page
  profile=$1
  shift
  timeout 120 "$browser" --headless --no-sandbox --disable-gpu --no-first-run \
    --disable-background-networking --disable-component-update --disable-sync \
    --host-resolver-rules='MAP * ~NOTFOUND' --user-data-dir="$dir/profile-$profile" "$@" 2>>"$dir/$profile.err"
}
# The network's log marks what a page from a file asked for with that page's origin.
cat > "$dir/asked.py" <<'PYTHON'
import json, sys
text = open(sys.argv[1], encoding="utf-8", errors="replace").read()
try:
    log = json.loads(text)
except ValueError:  # the browser may be gone before the last bracket is written
    log = json.loads(text.rstrip().rstrip(",") + "]}")
params = [e["params"] for e in log["events"] if "params" in e]
for p in params:
    if str(p.get("network_isolation_key", "")).startswith("file"):
        print(p.get("url", "?"))
PYTHON
shown() {  # page: its rendered text to page.dom, what it asked for to page.asked
  open_in "$1" --log-net-log="$dir/$1.net" --dump-dom "file://$dir/$1.html" > "$dir/$1.dom"
  /usr/bin/python3 "$dir/asked.py" "$dir/$1.net" > "$dir/$1.asked"
}
# A page that does run and ask shows that the checks below can fail.
echo '<!DOCTYPE html><title>x</title><img src="http://example.invalid/x.png"><script>
document.title = "RAN"</script>' > "$dir/control.html"
shown control
grep -q '<title>RAN' "$dir/control.dom" || fail "the control page did not run"
grep -q example.invalid "$dir/control.asked" || fail "the control page's request was not seen"
shown report
[ ! -s "$dir/report.asked" ] || fail "the report asked for $(cat "$dir/report.asked")"
see() { grep -qF -- "$1" "$dir/report.dom" || fail "does not show: $1"; }
miss() { ! grep -qF -- "$1" "$dir/report.dom" || fail "holds: $1"; }
see '<title>Treatment register, all yards, all days</title>'
see 'The label in your hand decides.'
see '>STRUCK<'
see 'tapped the wrong hive'
see 'OVER THE LABEL'
see "&lt;script&gt;document.title='RAN'&lt;/script&gt;"
miss '<script'
miss '<img'
# The page at the top of the bundle leads to every file, and to nothing else.
shown README
[ ! -s "$dir/README.asked" ] || fail "README.html asked for $(cat "$dir/README.asked")"
for file in day.csv dictionary.md events.jsonl keeper.xlsx register.csv report.html rounds.ics \
  stock.csv yards.geojson; do
  grep -qF "href=\"data/$file\"" "$dir/README.dom" || fail "README.html does not lead to $file"
done
[ "$(grep -o 'href="[^"]*"' "$dir/README.dom" | grep -vc 'data')" = 0 ] || fail "README.html: links"
grep -qF 'too weak' "$dir/README.dom" ||
  fail "README.html does not show the evening"
! grep -qE '<(script|img|svg)' "$dir/README.dom" || fail "README.html: a name became an element"
# Both pages as a telephone has them, 420 px wide: nothing stands out to the right.
for page in report README; do
  cat >"$dir/narrow.html" <<HTML
<!DOCTYPE html><title>?</title><iframe width="420" height="900" src="$page.html"
onload="document.title = 'width ' + this.contentDocument.documentElement.scrollWidth"></iframe>
HTML
  open_in narrow --allow-file-access-from-files --dump-dom "file://$dir/narrow.html" >"$dir/narrow.dom"
  width=$(sed -n 's/.*<title>width \([0-9]*\).*/\1/p' "$dir/narrow.dom")
  [ -n "$width" ] || fail "$page.html: its width was not seen"
  [ "$width" -le 420 ] || fail "$page.html is $width px wide in 420"
done
# Every name that anybody thought of: the same.
"$1" names "$dir"
mv "$dir/report.html" "$dir/names.html"
shown names
[ ! -s "$dir/names.asked" ] || fail "names asked for $(cat "$dir/names.asked")"
grep -q '<title>Treatment register, all yards, all days</title>' "$dir/names.dom" ||
  fail "a name changed the title"
! grep -qE '<(script|img|svg)' "$dir/names.dom" || fail "a name became an element"
"$1" hostile "$dir"
echo "html: rendered, ran nothing, asked for nothing (the control page did both)"
command -v pdftotext >/dev/null && command -v pdfinfo >/dev/null ||
  { echo "SKIPPED: poppler-utils is not installed: how it breaks on paper was not looked at"; exit 77; }
"$1" season "$dir"
# 40 colonies of three treatments each: a colony's rows stay on one page, so each holds 3 x n.
for paper in A4 letter; do
  sed "s|</style>|@page { size: $paper; }</style>|" "$dir/report.html" > "$dir/$paper.html"
  open_in "$paper" --no-pdf-header-footer --print-to-pdf="$dir/$paper.pdf" "file://$dir/$paper.html"
  case $paper in A4) size='59[45].* x 84[12]' ;; letter) size='612 x 792' ;; esac
  pdfinfo "$dir/$paper.pdf" | grep -q "Page size: *$size" || fail "$paper: another size of paper"
  pages=$(pdfinfo "$dir/$paper.pdf" | sed -n 's/^Pages: *//p')
  [ "$pages" -ge 3 ] || fail "$paper: only $pages pages"
  sum=0
  for page in $(seq 1 "$pages"); do
    pdftotext -f "$page" -l "$page" -layout "$dir/$paper.pdf" "$dir/page.txt"
    lots=$(grep -c 'lot 24-118' "$dir/page.txt") || true
    [ $((lots % 3)) -eq 0 ] || fail "$paper page $page: a colony's rows are torn apart"
    [ "$lots" -eq 0 ] || grep -q 'Colony  *When  *Outcome' "$dir/page.txt" ||
      fail "$paper page $page: no column heads"
    sum=$((sum + lots))
  done
  [ "$sum" -eq 120 ] || fail "$paper: $sum treatments, not 120"
  echo "html: $paper, $pages pages, column heads on each, no colony torn apart, 120 treatments"
done
