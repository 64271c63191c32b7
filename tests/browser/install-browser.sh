#!/usr/bin/env bash
# Makes sure that the browser tests have Chromium and WebKit; installs Debian's where that can be done.
set -euo pipefail

has_any() {
    for name in "$@"; do
        command -v "$name" >/dev/null && return 0
    done
    return 1
}

packages=()
has_any chromium chromium-browser google-chrome || packages+=(chromium)
has_any WebKitWebDriver || packages+=(webkit2gtk-driver)
has_any Xvfb || packages+=(xvfb)
if [ ${#packages[@]} = 0 ]; then
    echo "Browsers: Chromium and WebKit are there"
    exit 0
fi
if ! command -v apt-get >/dev/null; then
    echo "The browser tests need Chromium, WebKitGTK with its driver, and Xvfb. Install them and run 'make test' again." >&2
    exit 1
fi
as_root=()
[ "$(id -u)" = 0 ] || as_root=(sudo -n)
echo "Installing ${packages[*]}"
"${as_root[@]}" apt-get update -qq
DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends "${packages[@]}" >/dev/null
