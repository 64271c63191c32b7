#!/usr/bin/env bash
# Makes sure that the tests have a PostgreSQL of their own to start; installs Debian's where that can be done.
# The tests make a private server in a folder of their own and stop it again; whether the package starts one too is
# the package's choice, and no test speaks to that one.
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
if [ "$(id -u)" != 0 ]; then
    as_root=(sudo -n)
    if ! sudo -n true 2>/dev/null; then
        echo "The tests need PostgreSQL 15 or newer. Install the package postgresql and run 'make test' again." >&2
        exit 1
    fi
fi
echo "Installing postgresql"
"${as_root[@]}" apt-get update -qq
DEBIAN_FRONTEND=noninteractive "${as_root[@]}" apt-get install -y -qq --no-install-recommends postgresql >/dev/null
