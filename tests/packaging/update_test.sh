#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# An update file signed by OpenSSL, an independent Ed25519, is taken by the program; what was cut off,
# changed, signed by others, older or for another processor is refused in one line, and leaves nothing.
set -eu
duskwalk=$1 source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
sign=$source/packaging/image/sign_update.sh
arch=$(dpkg --print-architecture)

fail() {
  echo "FAIL: $*" >&2
  exit 1
}
refused() {  # WORDS FILE: the line has these words
  rm -f "$work/out"
  ! "$duskwalk" update "$2" --key "$work/key" --payload "$work/out" >"$work/said" 2>&1 ||
    fail "$2 was taken"
  [ "$(wc -l <"$work/said")" = 1 ] || fail "$2: not one line: $(cat "$work/said")"
  grep -q "$1" "$work/said" || fail "$2: said $(cat "$work/said")"
  [ -z "$(find "$work" -name 'out*')" ] || fail "$2: left something behind"
}

for who in maker other; do openssl genpkey -algorithm ed25519 -out "$work/$who.pem"; done
"$sign" --public "$work/maker.pem" >"$work/key"
head -c 3000000 /dev/urandom >"$work/system"
make() { "$sign" "$work/${2:-maker}.pem" "${3:-9.0.0}" "${4:-$arch}" 1 "$work/system" "$work/$1"; }

make good
"$duskwalk" update "$work/good" --key "$work/key" >/dev/null || fail "a good update was refused"
"$duskwalk" update "$work/good" --key "$work/key" --payload "$work/out" >/dev/null
cmp "$work/system" "$work/out" || fail "the payload is another one"

head -c 2000000 "$work/good" >"$work/cut"
refused "cut off" "$work/cut"
cp "$work/good" "$work/changed"
printf x | dd of="$work/changed" bs=1 seek=2000000 conv=notrunc status=none
refused "not those that were signed" "$work/changed"
sed 's/^version 9/version 8/' "$work/good" >"$work/edited"
refused "not signed" "$work/edited"
make others other
refused "not signed" "$work/others"
make old maker 0.0.1
refused "no later than" "$work/old"
make elsewhere maker 9.0.0 mips
refused "for mips" "$work/elsewhere"
refused "no update" "$source/README.md"
refused "cannot be read" "$work/nothing"
echo "updates: one taken, eight refused"
