#!/usr/bin/python3
"""`duskwalk light` beside PyEphem (XEphem's astronomy), to within 60 s up to 65 degrees.

Usage: light_outside.py DUSKWALK [HOW_MANY]. Exit 77: PyEphem is not installed.
"""
import datetime, json, random, subprocess, sys

try:
    import ephem
except ImportError:
    print("skipped: python3-ephem is not installed")
    sys.exit(77)

program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 40
dice, worst = random.Random(1990), 0
for _ in range(many):
    lat, lon = dice.uniform(-65, 65), dice.uniform(-179, 179)
    day = datetime.date(1950, 1, 1) + datetime.timedelta(days=dice.randrange(50000))
    got = json.loads(subprocess.run(
        [program, "light", f"--lat={lat:.6f}", f"--lon={lon:.6f}", f"--date={day}", "--zone=UTC", "--json"],
        check=True, capture_output=True, text=True).stdout)
    noon = datetime.datetime.fromisoformat(got["noon"].replace("Z", "+00:00")).replace(tzinfo=None)
    for height, rise, fall in (("-0:49:58.8", "sunrise", "sunset"), ("-6", "civil_dawn", "civil_dusk")):
        here = ephem.Observer()
        here.lat, here.lon, here.pressure, here.horizon = f"{lat:.6f}", f"{lon:.6f}", 0, height
        here.date = ephem.Date(noon)
        for key, find in ((rise, here.previous_rising), (fall, here.next_setting)):
            try:
                want = find(ephem.Sun(), use_center=True).datetime()
            except (ephem.AlwaysUpError, ephem.NeverUpError):
                continue  # near the edge the two may differ about whether there is one
            if got[key] is None or abs(want - noon) > datetime.timedelta(hours=13):
                continue
            mine = datetime.datetime.fromisoformat(got[key].replace("Z", "+00:00")).replace(tzinfo=None)
            off = abs((mine - want).total_seconds())
            worst = max(worst, off)
            assert off < 60, (lat, lon, str(day), key, got[key], str(want))
print(f"{many} places and days: largest difference {worst:.1f} s")
