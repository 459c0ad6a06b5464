#!/bin/sh
# tags.pdf, drawn by poppler and read by Debian's zbar-tools as a scanner would: every colony's tag
# comes back. Usage: tags_readback.sh WRITE_PAYLOAD
set -eu
for tool in zbarimg pdftoppm; do
  command -v $tool >/dev/null || { echo "skipped: $tool is not installed"; exit 77; }
done
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
"$1" season "$dir"
pdftoppm -r 150 -png "$dir/tags.pdf" "$dir/sheet"
zbarimg -q --nodbus --raw -Sdisable -Sqrcode.enable "$dir"/sheet*.png | sort > "$dir/got"
sort "$dir/tags.txt" > "$dir/want"
cmp "$dir/got" "$dir/want" || { diff "$dir/got" "$dir/want" | head; exit 1; }
[ "$(wc -l < "$dir/want")" = 40 ]
echo "tags: 40 of 40 read back by zbarimg $(zbarimg --version)"
