#!/bin/sh
# register.pdf read by poppler: whole, named, numbered, struck entries and hostile names readable,
# and no colony torn between two sheets. Usage: pdf_readback.sh WRITE_PAYLOAD
# Exit 77: poppler's programs are not installed.
set -eu
for program in pdfinfo pdftotext pdffonts; do
  command -v $program >/dev/null || { echo "skipped: $program is not installed"; exit 77; }
done
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
fail() { echo "pdf: $1" >&2; exit 1; }

"$1" hostile "$dir"
pdfinfo "$dir/register.pdf" > "$dir/info" 2> "$dir/complaints"
[ ! -s "$dir/complaints" ] || fail "poppler complains: $(cat "$dir/complaints")"
grep -q '^Title: *Treatment register, All yards, all days' "$dir/info" || fail "no title"
TZ=UTC pdfinfo "$dir/register.pdf" | grep -q '^CreationDate: *Mon Aug 17 02:15:00 2026' ||
  fail "it is not dated by its last entry"
# Text wraps in its column: the colonies' column alone, then all; without blanks and line breaks.
pdftotext -x 0 -y 0 -W 104 -H 600 "$dir/register.pdf" "$dir/text"
pdftotext "$dir/register.pdf" - >> "$dir/text"
tr -d ' \n\f' < "$dir/text" > "$dir/packed"
for want in "=1+1\"'><script>document.title='RAN'</script>" "naïveżółw" STRUCK "tappedthewronghive" \
  "OVERTHELABEL" "(0.035oz)" "Thelabelinyourhanddecides." c0ffee; do
  grep -qF -- "$want" "$dir/packed" || fail "not in the text: $want"
done
if grep -aq '/JavaScript\|/Launch\|/URI' "$dir/register.pdf"; then fail "something in it acts"; fi
pdffonts "$dir/register.pdf" | tail -n +3 | awk '{print $(NF-4)}' | grep -qv yes &&
  fail "a font is not embedded"

# The structure: what reads aloud finds the heading, the tables, their heads and every cell.
pdfinfo "$dir/register.pdf" | grep -q '^Tagged: *yes' || fail "it is not tagged"
pdfinfo -struct-text "$dir/register.pdf" > "$dir/structure" 2> "$dir/complaints"
[ ! -s "$dir/complaints" ] || fail "its structure is odd: $(cat "$dir/complaints")"
for want in H1 H2 P Table TR TH TD; do
  grep -q "^ *$want" "$dir/structure" || fail "no $want in its structure"
done
[ "$(grep -c '^ *H1' "$dir/structure")" = 1 ] || fail "not one H1"
/usr/bin/python3 - "$dir/structure" <<'PYTHON' || fail "its structure is not in order"
import re, sys
# An element's line is its name; its parent is the last line that is less indented.
inside = {"TR": {"Table"}, "TH": {"TR"}, "TD": {"TR"}, "Table": {"Document"}}
above = []
for line in open(sys.argv[1], encoding="utf-8"):
    found = re.match(r"( *)(Document|H1|H2|P|Table|TR|TH|TD)\b", line)
    if not found:
        continue
    depth, name = len(found[1]), found[2]
    above = [(d, n) for d, n in above if d < depth]
    parent = above[-1][1] if above else None
    if name in inside and parent not in inside[name]:
        sys.exit(f"{name} in {parent}")
    above.append((depth, name))
PYTHON
pdfinfo -meta "$dir/register.pdf" > "$dir/xmp"
/usr/bin/python3 - "$dir/xmp" <<'PYTHON' || fail "its XMP is not what was written"
import sys, xml.etree.ElementTree as tree
dc = "{http://purl.org/dc/elements/1.1/}"
text = open(sys.argv[1], encoding="utf-8").read()
root = tree.fromstring(text[text.index("<x:xmpmeta"):text.index("</x:xmpmeta>") + 12])
title = "".join(root.find(f".//{dc}title").itertext())
if title != "Treatment register, All yards, all days": sys.exit(title)
PYTHON
grep -q "Checked by:" "$dir/text" || fail "no line to sign on"
if command -v qpdf >/dev/null; then
  qpdf --check "$dir/register.pdf" > "$dir/qpdf" 2>&1 || fail "qpdf: $(cat "$dir/qpdf")"
fi

# Forty colonies with three treatments each: several sheets.
"$1" season "$dir"
pages=$(pdfinfo "$dir/register.pdf" | awk '/^Pages:/ {print $2}')
[ "$pages" -ge 3 ] || fail "the season fits on $pages sheets: nothing could be torn"
page=1
while [ "$page" -le "$pages" ]; do
  pdftotext -layout -f "$page" -l "$page" "$dir/register.pdf" "$dir/page"
  grep -q "page $page of $pages" "$dir/page" || fail "sheet $page has no number"
  grep -oE '(^| )A[0-9]+( |$)' "$dir/page" | tr -d ' ' | sort -u | sed "s/\$/ $page/" >> "$dir/seen"
  page=$((page + 1))
done
[ "$(cut -d' ' -f1 "$dir/seen" | sort | uniq -d | wc -l)" = 0 ] || fail "a colony stands on two sheets"
[ "$(cut -d' ' -f1 "$dir/seen" | sort -u | wc -l)" = 40 ] || fail "not all forty colonies are there"
echo "pdf: $pages sheets, 40 colonies, none torn"
