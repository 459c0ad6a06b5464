#!/bin/sh
# A bundle survives a FAT stick: copied into FAT16 and FAT32 images and out again by mtools (an
# outside FAT implementation), every name and byte is as it was, and sha256sum agrees.
#   fat_image.sh MAKE_BAG      exit 77: skipped, mtools is missing
set -eu
make_bag=$1
for tool in mformat mcopy mdir; do
  if ! command -v "$tool" >/dev/null; then
    echo "SKIPPED: $tool is missing (Debian package mtools): no FAT image was tried"
    exit 77
  fi
done

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export MTOOLS_SKIP_CHECK=0 MTOOLSRC=/dev/null
mkdir "$work/out"
bag=$("$make_bag" write "$work/out")
name=$(basename "$bag")

try_image() {  # label, sectors of 512 bytes, further mformat options
  label=$1; sectors=$2; shift 2
  image=$work/$label.img
  truncate -s $((sectors * 512)) "$image"
  mformat -i "$image" -T "$sectors" -h 64 -s 32 "$@" ::
  mcopy -i "$image" -s "$bag" ::
  mdir -i "$image" -b ::/ | grep -Fxq "::/$name/" || { echo "$label: $name is not there"; exit 1; }
  mkdir "$work/$label"
  mcopy -i "$image" -s "::/$name" "$work/$label/"
  diff -r "$bag" "$work/$label/$name"
  (cd "$work/$label/$name" && sha256sum -c --strict --quiet manifest-sha256.txt &&
    sha256sum -c --strict --quiet tagmanifest-sha256.txt)
  "$make_bag" check "$work/$label/$name"
  if command -v fsck.vfat >/dev/null; then fsck.vfat -n "$image" >/dev/null; fi
  echo "$label: every name and byte came back"
}

try_image fat16 65536
try_image fat32 262144 -F

# The control: a changed byte on the way is noticed by both.
printf x >>"$work/fat16/$name/data/day.csv"
if "$make_bag" check "$work/fat16/$name" 2>/dev/null; then echo "a changed byte passed"; exit 1; fi
if (cd "$work/fat16/$name" && sha256sum -c --quiet manifest-sha256.txt >/dev/null 2>&1); then
  echo "sha256sum let a changed byte pass"
  exit 1
fi
