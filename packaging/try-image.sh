#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Boots a tablet's image in an emulated machine, by software alone, waits for the first frame, takes a
# picture, and says how long it took. The image itself is not changed. Costs both processors for some
# minutes: by hand, once a release. Needs qemu-system-x86 and ovmf.
# Usage: try-image.sh IMAGE OUT_FOLDER [SECONDS_AT_MOST]
set -eu
[ $# -ge 2 ] || { sed -n '7s/^# //p' "$0" >&2; exit 2; }
here=$(cd "$(dirname "$0")" && pwd)
image=$1 out=$2 most=${3:-420}
mkdir -p "$out"
work=$(mktemp -d)
qemu=""
end() {
  [ -z "$qemu" ] || kill "$qemu" 2>/dev/null || true
  rm -rf "$work"
}
trap end EXIT

# A tablet of 4 GB; what it writes goes nowhere near the image.
cp --sparse=always "$image" "$work/disk"
truncate -s 4G "$work/disk"
mkfifo "$work/monitor"
exec 3<>"$work/monitor"
say() { printf '%s\n' "$1" >&3; }

# Never KVM, whatever devices this machine shows: results must not depend on it. A processor without
# AVX: with it (-cpu max of QEMU 7.2) Mesa's drawer by processor gets all colours wrong.
cp /usr/share/OVMF/OVMF_VARS.fd "$work/vars"
nice -n 19 qemu-system-x86_64 -accel tcg,thread=multi -machine q35 -cpu Nehalem -smp 2 -m 1024 \
  -drive if=pflash,format=raw,readonly=on,file=/usr/share/OVMF/OVMF_CODE.fd \
  -drive if=pflash,format=raw,file="$work/vars" \
  -drive if=virtio,format=raw,file="$work/disk" -vga none -device virtio-vga,xres=1280,yres=800 \
  -device qemu-xhci -device usb-tablet -nic none -display none \
  -serial file:"$out/serial.log" -monitor stdio <&3 >"$work/answers" &
qemu=$!

light=0
shown() {  # a picture of the screen as PNG; sets `light`, 0 to 1
  rm -f "$work/screen.ppm"
  say "screendump $work/screen.ppm"
  sleep 2
  light=$("$here/image/screen_picture.py" "$work/screen.ppm" "$1" 2>/dev/null) || light=0
}
# Duskwalk's page is bright all over; firmware and loader are black with a few letters.
bright() { awk -v light="$light" 'BEGIN { exit !(light > 0.5) }'; }

begin=$SECONDS
while [ $((SECONDS - begin)) -lt "$most" ]; do
  sleep 4
  kill -0 "$qemu" 2>/dev/null || { echo "the machine ended: see $out/serial.log" >&2; exit 1; }
  shown "$out/screen.png"
  bright || continue
  echo "first frame seen $((SECONDS - begin)) s after power on"
  sleep 30
  shown "$out/screen.png"
  bright || { echo "the picture went away again: see $out" >&2; exit 1; }
  ticks=$(awk '{print $14 + $15}' "/proc/$qemu/stat")
  sleep 20
  echo "idle: $(awk -v a="$ticks" -v b="$(awk '{print $14 + $15}' "/proc/$qemu/stat")" -v hz="$(getconf CLK_TCK)" \
    'BEGIN { printf "%.1f", (b - a) / hz * 3 }') CPU-s of this machine a minute, emulation and all"
  exit 0
done
echo "no frame in $most s: see $out" >&2
exit 1
