#!/usr/bin/env bash
# Installs from Debian what the external tests need, and runs them. Fails where it cannot.
set -euo pipefail
cd "$(dirname "$0")/.."

packages=(midicsv python3-mido openttd-openmsx chromium fonts-dejavu-core libxml2-utils fluidsynth
  fluid-soundfont-gm timgm6mb-soundfont sf3convert ffmpeg poppler-utils)

installed() {
  dpkg-query --show --showformat='${db:Status-Status}\n' "$1" 2>/dev/null | grep -qx installed
}

missing=()
for package in "${packages[@]}"; do
  installed "$package" || missing+=("$package")
done

if [ "${#missing[@]}" -gt 0 ]; then
  as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  "${as_root[@]}" apt-get update
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}"
fi

for package in "${packages[@]}"; do
  installed "$package" || { echo "external.sh: the Debian package $package is not there" >&2; exit 1; }
done
command -v midicsv >/dev/null || { echo 'external.sh: midicsv is not on the PATH' >&2; exit 1; }
command -v chromium >/dev/null || { echo 'external.sh: chromium is not on the PATH' >&2; exit 1; }
command -v xmllint >/dev/null || { echo 'external.sh: xmllint is not on the PATH' >&2; exit 1; }
# Debian's own Python: another one on the PATH would not have the module.
/usr/bin/python3 -c 'import mido'

npx vitest run --config .config/vitest.external.config.mjs "$@"
