#!/usr/bin/env bash
# Makes sure that the tests have a PostgreSQL of their own to start; installs Debian's where that can be done.
# Nothing is started here: the tests make a private server in a folder of their own and stop it again.
set -euo pipefail

if command -v initdb >/dev/null || ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1; then
    echo "PostgreSQL is there"
    exit 0
fi
if ! command -v apt-get >/dev/null; then
    echo "The tests need PostgreSQL 15 or newer (initdb and postgres). Install it and run 'make test' again." >&2
    exit 1
fi
as_root=()
[ "$(id -u)" = 0 ] || as_root=(sudo -n)
echo "Installing postgresql"
"${as_root[@]}" apt-get update -qq
DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends postgresql >/dev/null
