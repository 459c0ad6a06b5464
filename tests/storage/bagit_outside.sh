#!/bin/sh
# An outside BagIt library judges our bundles, and we judge one of its bags.
#   bagit_outside.sh MAKE_BAG      exit 77: skipped, no such library is installed
#
# Debian 12 has no BagIt package. Of npm's, "bagit" only calls the Python library, and "bagit-fs"
# (1.1.1, tried) cannot judge a bag: it takes neither the two spaces that sha256sum writes and RFC
# 8493 allows nor spaces in names, and looks at no tag manifest. So this runs where a Python has the
# module "bagit" (set BAGIT_PYTHON to name that Python); elsewhere bag_test.cpp rests on sha256sum of
# GNU coreutils and on Payload-Oxum.
set -eu
make_bag=$1
python=
for candidate in "${BAGIT_PYTHON:-}" python3 /usr/bin/python3; do
  if [ -n "$candidate" ] && "$candidate" -c 'import bagit' 2>/dev/null; then
    python=$candidate
    break
  fi
done
if [ -z "$python" ]; then
  echo "SKIPPED: no Python with the module bagit, and Debian and npm have no library that can judge a bag"
  exit 77
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
judge() { "$python" -c 'import bagit, sys; bagit.Bag(sys.argv[1]).validate()' "$1"; }

mkdir "$work/out"
bag=$("$make_bag" write "$work/out")
judge "$bag"
echo "the outside library finds our bundle valid"

cp -r "$bag" "$work/cut"
truncate -s -1 "$work/cut/data/events.jsonl"
if judge "$work/cut" 2>/dev/null; then echo "one byte cut was not noticed"; exit 1; fi
cp -r "$bag" "$work/extra"
echo x >"$work/extra/data/extra.txt"
if judge "$work/extra" 2>/dev/null; then echo "an extra file was not noticed"; exit 1; fi

mkdir -p "$work/theirs/deep/er"
echo one >"$work/theirs/one.txt"
echo two >"$work/theirs/deep/er/two words.txt"
"$python" -c 'import bagit, sys
bagit.make_bag(sys.argv[1], {"Contact-Name": "Ada Example"}, checksums=["sha256"])' "$work/theirs"
"$make_bag" check "$work/theirs"
echo "we find a bag of the outside library whole"
truncate -s -1 "$work/theirs/data/one.txt"
if "$make_bag" check "$work/theirs" 2>/dev/null; then echo "their cut byte passed"; exit 1; fi
