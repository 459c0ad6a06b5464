#!/usr/bin/env bash
# Installs what building, testing and the demo need on Debian 12. Does nothing when all is there.
# Usage: install-build-deps.sh [run|test]   (test: the second compiler and the outside readers too)
set -eu
what=${1:-run}

need="g++ cmake ninja-build pkg-config ca-certificates
  libimgui-dev libsdl2-dev libstb-dev libsqlite3-dev libfmt-dev nlohmann-json3-dev libcli11-dev
  libutfcpp-dev
  libsodium-dev libcsv-dev libzip-dev libpq-dev libexpat1-dev libxlsxwriter-dev libpango1.0-dev libqrencode-dev libhowardhinnant-date-dev tzdata libboost-math-dev libboost-locale-dev gettext fonts-dejavu-core fonts-b612 espeak-ng"
if [ "$what" = test ]; then
  need="$need ccache clang clang-format clang-tidy lld libclang-rt-14-dev doctest-dev python3 python3-ephem python3-icalendar python3-openpyxl python3-jsonschema mtools chromium
    poppler-utils qpdf zbar-tools unison minizinc python3-scipy
    libreoffice-calc-nogui postgresql zsh fish man-db mandoc bsdextrautils
    lintian appstream desktop-file-utils mmdebstrap binutils openssl"
fi

missing=""
for package in $need; do
  state=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null || true)
  [ "$state" = "install ok installed" ] || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

sudo=""
if [ "$(id -u)" != 0 ]; then
  command -v sudo >/dev/null || { echo "install these packages as root:$missing" >&2; exit 1; }
  sudo=sudo
fi
echo "installing:$missing"
export DEBIAN_FRONTEND=noninteractive
$sudo apt-get update -qq
# shellcheck disable=SC2086
$sudo apt-get install -y -qq --no-install-recommends $missing >/dev/null
