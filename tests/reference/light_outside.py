#!/usr/bin/python3
"""`duskwalk light` beside PyEphem (XEphem's astronomy): to within 60 s up to 65 degrees, and beyond
that whether an event happens at all (polar day, polar night, nights without dusk).

Usage: light_outside.py DUSKWALK [HOW_MANY]. Exit 77: PyEphem is not installed.
"""
import datetime, json, math, random, subprocess, sys

try:
    import ephem
except ImportError:
    print("skipped: python3-ephem is not installed")
    sys.exit(77)

program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 40
half_day = datetime.timedelta(hours=12)
heights = (("-0:49:58.8", "sunrise", "sunset"), ("-6", "civil_dawn", "civil_dusk"))


def at(text):
    return datetime.datetime.fromisoformat(text.replace("Z", "+00:00")).replace(tzinfo=None)


def observer(lat, lon, height, when):
    here = ephem.Observer()
    here.lat, here.lon, here.pressure, here.horizon = f"{lat:.6f}", f"{lon:.6f}", 0, height
    here.date = ephem.Date(when)
    return here


def asked(lat, lon, day):
    words = [program, "light", f"--lat={lat:.6f}", f"--lon={lon:.6f}", f"--date={day}", "--zone=UTC", "--json"]
    return json.loads(subprocess.run(words, check=True, capture_output=True, text=True).stdout)


def outside(here, find, noon):
    """The event nearest to that noon on its side; None: there is none."""
    try:
        want = find(ephem.Sun(), use_center=True).datetime()
    except (ephem.AlwaysUpError, ephem.NeverUpError):
        return None
    return want if abs(want - noon) <= half_day else None


def grazes(lat, lon, height, noon):
    """The sun turns within 0.05 degrees of that height: neither side can be sure of the event."""
    for when in (noon - half_day, noon, noon + half_day):
        here = observer(lat, lon, height, when)
        if abs(math.degrees(ephem.Sun(here).alt - here.horizon)) < 0.05:
            return True
    return False


def compare(lat, lon, day, most_s):
    """Largest difference in seconds, times compared, events that neither side has."""
    got, worst, times, none = asked(lat, lon, day), 0, 0, 0
    noon = at(got["noon"])
    for height, rise, fall in heights:
        here = observer(lat, lon, height, noon)
        if grazes(lat, lon, height, noon):
            continue
        for key, find in ((rise, here.previous_rising), (fall, here.next_setting)):
            want = outside(here, find, noon)
            assert (got[key] is None) == (want is None), (lat, lon, str(day), key, got[key], str(want))
            if want is None:
                none += 1
                continue
            off = abs((at(got[key]) - want).total_seconds())
            assert off < most_s, (lat, lon, str(day), key, got[key], str(want))
            worst, times = max(worst, off), times + 1
    return worst, times, none


def day_of(dice):
    return datetime.date(1950, 1, 1) + datetime.timedelta(days=dice.randrange(50000))


dice = random.Random(1990)
rows = [compare(dice.uniform(-65, 65), dice.uniform(-179, 179), day_of(dice), 60) for _ in range(many)]
compared = sum(r[1] for r in rows)
assert compared > 3.5 * many, compared
polar = [compare(dice.choice((-1, 1)) * dice.uniform(65, 85), dice.uniform(-179, 179), day_of(dice), 600)
         for _ in range(many)]
missing = sum(r[2] for r in polar)
assert missing > many // 2, missing
print(f"{many} places and days, {compared} times: largest difference {max(r[0] for r in rows):.1f} s; "
      f"{many} polar ones: {missing} events on neither side, "
      f"largest difference {max(r[0] for r in polar):.1f} s")
