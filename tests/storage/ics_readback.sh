#!/bin/sh
# rounds.ics, read by Debian's python3-icalendar. Usage: ics_readback.sh WRITE_PAYLOAD
set -eu
/usr/bin/python3 -c 'import icalendar' 2>/dev/null ||
  { echo "skipped: python3-icalendar is not installed"; exit 77; }
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$1" hostile "$dir"
mkdir "$dir/changed"
"$1" changed "$dir/changed"
/usr/bin/python3 - "$dir" <<'PYTHON'
import datetime, icalendar, sys

raw = open(f"{sys.argv[1]}/rounds.ics", "rb").read()
for line in raw.split(b"\r\n"):
    if len(line) > 75 or b"\n" in line or b"\r" in line:
        sys.exit(f"a line is too long or holds a lone line end: {line!r}")
cal = icalendar.Calendar.from_ical(raw)
events = list(cal.walk("VEVENT"))
for e in events:
    if e.errors:
        sys.exit(f"{e['UID']}: {e.errors}")
got = sorted((e.decoded("DTSTART"), e.decoded("DTEND"), str(e["SUMMARY"])) for e in events)
day = lambda m, d: datetime.date(2026, m, d)
want = [(day(7, 15), day(7, 16), "No honey for people before this day: Thistle Bank"),
        (day(8, 15), day(8, 16), "Come back to Thistle Bank: 5 colonies"),
        (day(8, 21), day(8, 22), "Treat Thistle Bank: round 1 of 3"),
        (day(8, 28), day(8, 29), "Treat Thistle Bank: round 2 of 3"),
        (day(9, 4), day(9, 5), "Treat Thistle Bank: round 3 of 3")]
if got != want:
    sys.exit(f"events: {got}")
if len({str(e["UID"]) for e in events}) != 5 or cal["VERSION"] != "2.0":
    sys.exit("UIDs or VERSION")
if {str(e["STATUS"]) for e in events} != {"CONFIRMED"} or any("SEQUENCE" not in e for e in events):
    sys.exit("STATUS or SEQUENCE")
back = next(e for e in events if e["SUMMARY"].startswith("Come back"))
if "A4: passed over: too weak\n" not in back["DESCRIPTION"]:
    sys.exit(f"description: {back['DESCRIPTION']!r}")
utc = datetime.timezone.utc
if back.decoded("DTSTAMP") != datetime.datetime(2026, 8, 17, 2, 15, tzinfo=utc):
    sys.exit(f"stamp: {back.decoded('DTSTAMP')}")
# The same calendar after the course was ended and every come-back settled: each event of theirs is
# cancelled under its own UID, with a higher SEQUENCE (RFC 5545 3.8.7.4, RFC 5546 3.2.5). The honey
# has waited and stays as it was.
later = icalendar.Calendar.from_ical(open(f"{sys.argv[1]}/changed/rounds.ics", "rb").read())
after = {str(e["UID"]): e for e in later.walk("VEVENT")}
for e in events:
    now = after.get(str(e["UID"]))
    if now is not None and str(e["SUMMARY"]).startswith("No honey"):
        if str(now["STATUS"]) != "CONFIRMED" or now.decoded("DTSTART") != e.decoded("DTSTART"):
            sys.exit("the honey waits for another day, though nothing was said of it")
        continue
    if now is None or str(now["STATUS"]) != "CANCELLED" or now["SEQUENCE"] <= e["SEQUENCE"]:
        sys.exit(f"{e['UID']}: not cancelled with a higher sequence")
print(f"ics: {len(events)} events read back by icalendar {icalendar.__version__}")
PYTHON
