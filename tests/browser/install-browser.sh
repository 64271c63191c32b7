#!/usr/bin/env bash
# Makes sure a Chromium is there for the browser tests; installs Debian's where that can be done.
set -euo pipefail
for name in chromium chromium-browser google-chrome; do
    if command -v "$name" >/dev/null; then
        echo "Browser: $(command -v "$name")"
        exit 0
    fi
done
if ! command -v apt-get >/dev/null; then
    echo "The browser tests need Chromium. Install it and run 'make test' again." >&2
    exit 1
fi
as_root=()
[ "$(id -u)" = 0 ] || as_root=(sudo -n)
echo "Installing Chromium"
"${as_root[@]}" apt-get update -qq
DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends chromium >/dev/null
