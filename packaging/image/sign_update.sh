#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Makes the update file of a system (storage/update/update_file.h has its form), signed by OpenSSL.
# Usage: sign_update.sh KEY.pem VERSION ARCHITECTURE STORE_FORMAT SYSTEM OUT
#        sign_update.sh --public KEY.pem       prints the key that goes onto the tablets
# A new key: openssl genpkey -algorithm ed25519 -out KEY.pem; it stays with those who make systems.
set -eu
digits() { od -An -v -tx1 | tr -d ' \n'; }

if [ "${1:-}" = --public ] && [ $# = 2 ]; then
  openssl pkey -in "$2" -pubout -outform DER | tail -c 32 | digits
  echo
  exit
fi
[ $# = 6 ] || { sed -n '5,6s/^# //p' "$0" >&2; exit 2; }
key=$1 version=$2 architecture=$3 store=$4 system=$5 out=$6
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

{
  echo "duskwalk-update 1"
  echo "version $version"
  echo "architecture $architecture"
  echo "store $store"
  echo "bytes $(stat -Lc %s "$system")"
  echo "sha256 $(sha256sum <"$system" | cut -d ' ' -f 1)"
} >"$work/lines"
openssl pkeyutl -sign -rawin -inkey "$key" -in "$work/lines" -out "$work/signature"
{
  cat "$work/lines"
  echo "signature $(digits <"$work/signature")"
  echo
  cat "$system"
} >"$out"
