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
dice, worst, compared = random.Random(1990), 0, 0
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
                want = None
            if want is None or abs(want - noon) > datetime.timedelta(hours=12):  # none around that noon
                assert got[key] is None, (lat, lon, str(day), key, got[key], "not there")
                continue
            assert got[key] is not None, (lat, lon, str(day), key, str(want))
            mine = datetime.datetime.fromisoformat(got[key].replace("Z", "+00:00")).replace(tzinfo=None)
            off = abs((mine - want).total_seconds())
            worst, compared = max(worst, off), compared + 1
            assert off < 60, (lat, lon, str(day), key, got[key], str(want))
assert compared > 3.5 * many, compared
print(f"{many} places and days, {compared} times: largest difference {worst:.1f} s")
