"""The commands for a database's life: `backup`, `restore`, `move`. All of them work while the service runs."""

import argparse
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from evenbed.settings import Settings
from evenbed.store.backup import back_up, restore
from evenbed.store.copying import Sum
from evenbed.store.database import shown_url
from evenbed.store.moving import move

Command = Callable[[argparse.Namespace, Settings], int]
Add = Callable[[str, Command, str], argparse.ArgumentParser]


def add_keeping(add: Add) -> None:
    """Put the commands into the parser; `add` makes one that takes a database: name, function, purpose."""
    backing_up = add("backup", run_backup, "copy the database into a file, while the service runs")
    backing_up.add_argument("file", type=Path, help="not there yet; it can be restored into either kind of database")
    restoring = add("restore", run_restore, "put a backup in the place of what the database holds")
    restoring.add_argument("file", type=Path, help="a file made by `evenbed backup`")
    moving = add("move", run_move, "copy everything from a SQLite file into an empty PostgreSQL database")
    moving.add_argument("--to", required=True, help="URL of the PostgreSQL database")


def run_backup(given: argparse.Namespace, settings: Settings) -> int:
    """Make one file of everything."""
    back_up(settings.database_url, given.file, settings.busy_timeout_s)
    print(f"Backup: {given.file} is complete and was read back.")
    return 0


def run_restore(given: argparse.Namespace, settings: Settings) -> int:
    """Put a backup in place; what stood there is kept in the data folder."""
    replaced = settings.data / f"replaced-{datetime.now(UTC):%Y%m%d-%H%M%S-%f}.db"
    kept = restore(given.file, settings.database_url, replaced, settings.busy_timeout_s)
    print(f"Restored from {given.file} into {shown_url(settings.database_url)}: {_told(kept)}.")
    if replaced.exists():
        print(f"What was there before is kept in {replaced}.")
    print("The database has a new identity: phones offer again what they still hold. Old join codes are void.")
    return 0


def run_move(given: argparse.Namespace, settings: Settings) -> int:
    """Move into PostgreSQL and prove that everything is there."""
    kept = move(settings.database_url, given.to, settings.busy_timeout_s)
    for name, told in kept.items():
        print(f"{name}: {told.rows} rows, equal on both sides ({told.digest:064x})")
    print(f"Moved into {shown_url(given.to)}: {_told(kept)}; every record made again from its log and compared.")
    print("The file takes no more changes. Start the service with EVENBED_DATABASE set to the new URL.")
    return 0


def _told(kept: dict[str, Sum]) -> str:
    rows = {name: told.rows for name, told in kept.items()}
    return f"{rows['change']} changes, {rows['record']} records, {rows['photo']} photos, {rows['device']} devices"
