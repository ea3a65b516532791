#!/usr/bin/env bash
# Installs from Debian what the external tests need, and runs them. Fails where it cannot.
set -euo pipefail
cd "$(dirname "$0")/.."

packages=(midicsv python3-mido openttd-openmsx chromium fonts-dejavu-core libxml2-utils fluidsynth
  fluid-soundfont-gm timgm6mb-soundfont sf3convert ffmpeg poppler-utils groff bsdutils)

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

# Other versions of Node.js (npm packages that are one binary each), the lowest that is supported among them.
# KEYSLIP_NODES=/path/to/node:/another names those that are tried instead.
nodes="${XDG_CACHE_HOME:-$HOME/.cache}/keyslip/nodes"
if [ -z "${KEYSLIP_NODES:-}" ]; then
  case "$(uname -m)" in aarch64) machine=arm64 ;; *) machine=x64 ;; esac
  wanted=(20.19.0 22.23.3 24.11.0)
  for version in "${wanted[@]}"; do
    node="$nodes/$version/node_modules/node-linux-$machine/bin/node"
    [ -x "$node" ] || npm install --no-save --no-audit --no-fund --ignore-scripts --silent \
      --prefix "$nodes/$version" "node-linux-$machine@$version" ||
      echo "external.sh: Node.js $version cannot be had: test/external/nodes goes without it" >&2
    if [ -x "$node" ]; then KEYSLIP_NODES="${KEYSLIP_NODES:+$KEYSLIP_NODES:}$node"; fi
  done
  export KEYSLIP_NODES="${KEYSLIP_NODES:-}"
fi

npx vitest run --config .config/vitest.external.config.mjs "$@"
