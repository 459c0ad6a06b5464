#!/bin/sh
# yards.geojson against the rules of RFC 7946, by Python's json; and by ogrinfo where it is
# installed. Usage: geojson_readback.sh WRITE_PAYLOAD
set -eu
[ -x /usr/bin/python3 ] || { echo "skipped: /usr/bin/python3 is not installed"; exit 77; }
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$1" hostile "$dir"
/usr/bin/python3 - "$dir" <<'PYTHON'
import json, sys

def need(truth, what):
    if not truth:
        sys.exit(what)

def no_doubles(pairs):
    need(len({k for k, _ in pairs}) == len(pairs), "a key stands twice")
    return dict(pairs)

raw = open(f"{sys.argv[1]}/yards.geojson", encoding="utf-8").read()
need(not raw.startswith("\ufeff"), "RFC 8259 8.1: no byte order mark")
all = json.loads(raw, object_pairs_hook=no_doubles)
need(all["type"] == "FeatureCollection" and isinstance(all["features"], list), "3.3")
need("crs" not in all, "4: WGS 84, no crs member")
ids = set()
for f in all["features"]:
    need(f["type"] == "Feature" and isinstance(f["properties"], dict) and "geometry" in f, "3.2")
    need(isinstance(f["id"], str) and f["id"] not in ids, "an id stands twice")
    ids.add(f["id"])
    g = f["geometry"]
    if g is None:
        continue
    need(g["type"] == "Point" and len(g["coordinates"]) == 2, "3.1.2")
    lon, lat = g["coordinates"]
    need(abs(lon + 120) < 0.001 and abs(lat - 45) < 0.001, f"3.1.1 longitude first: {lon} {lat}")
need(len(ids) == 9, f"{len(ids)} features, not 9")
print("geojson: 9 features keep the rules of RFC 7946")
PYTHON
if command -v ogrinfo >/dev/null; then
  ogrinfo -ro -al -so "$dir/yards.geojson" > "$dir/out"
  grep -q 'Feature Count: 9' "$dir/out"
  grep -q 'WGS 84' "$dir/out"
  echo "geojson: read by $(ogrinfo --version)"
fi
