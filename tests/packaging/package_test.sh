#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# What the package is: without a fault that Debian's own checker knows, the same bytes each time,
# hardened, and free of the paths of the machine that built it.
set -eu
build=$1 source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

fail() {
  echo "FAIL: $*" >&2
  exit 1
}

package=$("$source/packaging/package.sh" "$build")
case $package in
  */duskwalk_[0-9]*_*.deb) ;;
  *) fail "the package is called \"$package\"" ;;
esac
cp "$package" "$work/first.deb"

# 1. Debian's checker, and those of the desktop's formats.
lintian --fail-on error,warning "$package" 2>"$work/lintian" ||
  fail "lintian: $(cat "$work/lintian"; lintian "$package" 2>&1)"
appstreamcli validate --no-net "$source"/packaging/desktop/*.metainfo.xml >"$work/said" ||
  fail "$(cat "$work/said")"
desktop-file-validate "$source"/packaging/desktop/*.desktop

# 2. The same bytes again, though the files are newer now.
touch "$source/assets/themes.json"
"$source/packaging/package.sh" "$build" >/dev/null
cmp "$work/first.deb" "$package" || fail "two packages of one build differ"

# 3. What the compiler and linker were to do about writes beyond an end.
dpkg-deb -x "$package" "$work/tree"
program=$work/tree/usr/bin/duskwalk
readelf -hdlW "$program" >"$work/elf"
for word in "DYN (Position-Independent" BIND_NOW GNU_RELRO; do
  grep -q "$word" "$work/elf" || fail "the program is not hardened: no $word"
done
objdump -T "$program" >"$work/needs"
for word in __stack_chk_fail '__[a-z]*_chk'; do
  grep -q "$word" "$work/needs" || fail "the program is not hardened: no $word"
done

# 4. Nothing tells where it was built.
! grep -qaF -e "$source/" -e "$build/" "$program" || fail "the program holds a path of this machine"

# 5. Each library that is linked stands in the bill of materials and in the copyright file.
doc=$work/tree/usr/share/doc/duskwalk
/usr/bin/python3 - "$source/packaging/linked.tsv" "$doc" "$program" <<'PY'
import json, pathlib, re, subprocess, sys
table, doc, program = sys.argv[1:]
bill = json.loads(pathlib.Path(doc, "duskwalk.spdx.json").read_text())
told = {p["name"]: p for p in bill["packages"]}
rights = pathlib.Path(doc, "copyright").read_text()
for line in pathlib.Path(table).read_text().splitlines():
    if line.startswith("#"):
        continue
    package, how = line.split("\t")[:2]
    assert re.search(r"\b" + re.escape(package) + r"(?![\w-])", rights), f"copyright: {package}"
    assert how == "dynamic" or package in told, f"bill of materials: {package}"
needed = re.findall(r"NEEDED\s+(lib\S+)", subprocess.run(
    ["objdump", "-p", program], check=True, text=True, capture_output=True).stdout)
dynamic = [r for r in bill["relationships"] if r["relationshipType"] == "DYNAMIC_LINK"]
assert len(dynamic) >= 10 and len(needed) >= len(dynamic), (len(dynamic), len(needed))
# SPDX 2.3, clause 7: each element has an id of letters, digits, dots and dashes; clause 11: what is
# related is there.
ids = {p["SPDXID"] for p in bill["packages"]}
assert len(ids) == len(bill["packages"]) and all(re.fullmatch(r"SPDXRef-[A-Za-z0-9.-]+", i) for i in ids)
for r in bill["relationships"]:
    assert {r["spdxElementId"], r["relatedSpdxElement"]} <= ids, r
for p in bill["packages"]:
    assert p["licenseDeclared"] not in ("", "NOASSERTION"), p["name"]
PY
echo "the package is sound: $(stat -c %s "$package") bytes"
