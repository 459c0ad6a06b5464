#!/bin/sh
# Files of an outfit whose names are markup, formulas, calendar lines, right-to-left marks, line
# breaks, control characters, no UTF-8, or very long: read by Python's csv, html.parser and json, by
# Debian's python3-icalendar, by poppler and by zbar. Nothing runs, nothing breaks, and what a name
# says comes back. Usage: names_readback.sh WRITE_PAYLOAD
set -eu
/usr/bin/python3 -c 'import icalendar' 2>/dev/null ||
  { echo "skipped: python3-icalendar is not installed"; exit 77; }
for tool in pdfinfo pdftotext pdftoppm zbarimg; do
  command -v $tool >/dev/null || { echo "skipped: $tool is not installed"; exit 77; }
done
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$1" names "$dir"
/usr/bin/python3 - "$dir" <<'PYTHON'
import csv, html.parser, icalendar, json, sys

dir = sys.argv[1]
wrong = []


def need(truth, what):
    if not truth:
        wrong.append(what)


raw = [bytes.fromhex(line.strip()) for line in open(f"{dir}/names.txt")]
names = [n.decode("utf-8", "replace") for n in raw]
formulas = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def unmarked(cell):
    """Without the apostrophe that storage/text/csv_out.h puts before a formula."""
    return cell[1:] if cell[:1] == "'" and cell.lstrip("'").startswith(formulas) else cell


def read(name):
    with open(f"{dir}/{name}", newline="", encoding="utf-8-sig") as f:
        return list(csv.DictReader(f, strict=True))


# ---- csv: no cell of text is a formula, and every name comes back (a NUL is left out) ----
numbers = {"dose_mg", "dihydrate_mg", "anhydrous_mg", "brood_boxes", "withdrawal_days", "dwell_s",
           "seal_s", "temperature_tenths_c", "wind_tenths_m_s", "wind_from_deg", "seq"}
for file in ("register.csv", "day.csv", "stock.csv"):
    for row in read(file):
        need(None not in row and None not in row.values(), f"{file}: a row of another length")
        for key, cell in row.items():
            need(key in numbers or not cell.startswith(formulas), f"{file}: a formula: {cell[:40]!r}")
rows = read("register.csv")
want = [n.replace("\0", "") for n in names]
for column in ("colony", "product", "dose_as_written"):
    got = {unmarked(r[column]) for r in rows}
    for name in want:
        need(name in got, f"register.csv: {column}: not there: {name[:40]!r}")


# ---- html: no element or attribute that a name brought ----
class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.text, self.tags, self.attributes, self.links = "", set(), set(), []

    def handle_starttag(self, tag, attributes):
        self.tags.add(tag)
        self.attributes |= {key for key, _ in attributes}
        self.links += [value for key, value in attributes if key in ("href", "src")]

    def handle_data(self, data):
        self.text += data


page = Page()
page.feed(open(f"{dir}/report.html", encoding="utf-8", newline="").read())
page.close()
need(not page.tags & {"script", "img", "svg", "a", "iframe", "object", "form", "input"},
     f"html: elements {page.tags}")
need(not any(a.startswith("on") for a in page.attributes), f"html: attributes {page.attributes}")
need(page.links == ["data:,"], f"html: it leads to {page.links}")  # its own empty icon


def printed(text):  # control characters have no place in a page
    return "".join("\ufffd" if (ord(c) < 32 and c not in "\n\t") or ord(c) == 127 else c for c in text)


for name in names:
    need(printed(name) in page.text, f"html: not there: {name[:40]!r}")

# ---- geojson ----
features = json.load(open(f"{dir}/yards.geojson", encoding="utf-8"))["features"]
got = {f["properties"]["name"] for f in features if f["properties"]["kind"] == "colony"}
for name in names:
    need(name in got, f"geojson: not there: {name[:40]!r}")

# ---- ics: as many events as without the names, lines of 75 octets ----
raw_ics = open(f"{dir}/rounds.ics", "rb").read()
for line in raw_ics.split(b"\r\n"):
    need(len(line) <= 75 and b"\n" not in line and b"\r" not in line, f"ics: {line!r}")
calendar = icalendar.Calendar.from_ical(raw_ics)
events = list(calendar.walk("VEVENT"))
need(len({str(e["UID"]) for e in events}) == len(events) and len(events) >= 4, "ics: UIDs")
for e in events:
    need(not e.errors and str(e["SUMMARY"]) != "not ours", f"ics: {e.errors} {e['SUMMARY']}")

# ---- events.jsonl: the entries of the names ----
noted = [json.loads(line)["event"]["body"].get("text") for line in
         open(f"{dir}/events.jsonl", encoding="utf-8", newline="\n")]
for name in names:
    need(name in noted, f"events.jsonl: not there: {name[:40]!r}")

for line in wrong:
    print("FAILED:", line)
print(f"{len(names)} names read back from csv, html, geojson, ics and events")
sys.exit(1 if wrong else 0)
PYTHON

fail() { echo "names: $1" >&2; exit 1; }
for pdf in register tags; do
  pdfinfo "$dir/$pdf.pdf" >"$dir/info" 2>"$dir/complaints" || fail "$pdf.pdf: poppler cannot read it"
  [ ! -s "$dir/complaints" ] || fail "$pdf.pdf: poppler complains: $(cat "$dir/complaints")"
  if grep -aqE '/(JavaScript|JS|Launch|URI|OpenAction|AA|EmbeddedFile)\b' "$dir/$pdf.pdf"; then
    fail "$pdf.pdf: something in it acts"
  fi
  pages=$(awk '/^Pages:/ {print $2}' "$dir/info")
  [ "$pages" -ge 1 ] && [ "$pages" -le 60 ] || fail "$pdf.pdf has $pages pages"
  pdftotext "$dir/$pdf.pdf" - | tr -d ' \n\f' >"$dir/packed"
  for words in "document.title='RAN'" "app.alert(1)" "SUMMARY:notours"; do
    grep -qF -- "$words" "$dir/packed" || fail "$pdf.pdf does not show: $words"
  done
done
pdftoppm -r 150 -png "$dir/tags.pdf" "$dir/sheet"
zbarimg -q --nodbus --raw -Sdisable -Sqrcode.enable "$dir"/sheet*.png | sort >"$dir/got"
sort "$dir/tags.txt" >"$dir/want"
cmp "$dir/got" "$dir/want" || { diff "$dir/got" "$dir/want" | head; fail "a tag is not read back"; }
echo "names: register and tags read by poppler, $(wc -l <"$dir/want") tags read back by zbar"
