"""A PostgreSQL server of the tests' own: in a temporary folder, reached by a socket in it, stopped at the end.

PostgreSQL does not run as root; where the tests do, its processes and files belong to an unprivileged user.
"""

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from itertools import count
from pathlib import Path

import psycopg
from psycopg.sql import SQL, Identifier
from sqlalchemy.engine import make_url

PATIENCE_S = 30.0
SUPERUSER = "evenbed"
ENDS_WITH_US = ("setpriv", "--pdeathsig", "INT", "--") if shutil.which("setpriv") else ()
"""A run that is killed leaves no server behind."""
ENOUGH_MEMORY = 4 * 1024**3
"""For the databases of a whole run; a container often has far less."""
MEMORY = Path("/dev/shm")  # noqa: S108 (what is made there has a random name and no rights for others)
QUICK = ("fsync=off", "synchronous_commit=off", "full_page_writes=off")
"""Good for databases that nobody will miss: what is promised about the disk is tested on a server without these."""
SMALL = ("listen_addresses=", "shared_buffers=32MB", "max_connections=150", "autovacuum=off", "max_wal_size=2GB")

COLLATION = ("--encoding", "UTF8", "--locale-provider", "icu", "--icu-locale", "en-US", "--no-sync")
"""Texts sort as an office's do, not as bytes: nothing may depend on it."""


class NoPostgresError(Exception):
    """PostgreSQL is not installed, or does not start."""


def program(name: str) -> str:
    """Where a program of the newest PostgreSQL is. Raises NoPostgresError."""
    packaged = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), key=lambda path: int(path.parts[-3]))
    found = str(packaged[-1]) if packaged else shutil.which(name)
    if found is None:
        raise NoPostgresError("PostgreSQL is not installed: run tests/postgres/install-postgres.sh")
    return found


class Cluster:
    """One server with its files. `durable` keeps every promise about the disk, and is slower."""

    def __init__(self, *, durable: bool = False) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="evenbed-pg-", dir=None if durable else _memory()))
        self._owner = _unprivileged()
        self._settings = SMALL if durable else (*SMALL, *QUICK)
        self._numbers = count(1)
        self._process: subprocess.Popen[bytes] | None = None
        if self._owner is not None:
            shutil.chown(self.folder, self._owner)
        self._run("initdb", "--pgdata", self._files, "--username", SUPERUSER, "--auth", "trust", *COLLATION)

    @property
    def _files(self) -> str:
        return str(self.folder / "files")

    def _run(self, name: str, *words: str) -> None:
        quiet = {"stdout": subprocess.DEVNULL, "user": self._owner, "cwd": self.folder}
        told = subprocess.run([program(name), *words], stderr=subprocess.PIPE, text=True, check=False, **quiet)  # type: ignore[call-overload]
        if told.returncode:
            raise NoPostgresError(told.stderr)

    def start(self) -> None:
        """Start and wait until it answers. Raises NoPostgresError."""
        settings = (*self._settings, f"unix_socket_directories={self.folder}")
        options = [word for setting in settings for word in ("-c", setting)]
        with (self.folder / "log").open("ab") as log:
            self._process = subprocess.Popen(
                [*ENDS_WITH_US, program("postgres"), "-D", self._files, *options],
                stdout=log,
                stderr=log,
                user=self._owner,
                cwd=self.folder,
                start_new_session=True,
            )
        self._wait()

    def _wait(self) -> None:
        patience = time.monotonic() + PATIENCE_S
        while not self._answers():
            if time.monotonic() > patience:
                raise NoPostgresError((self.folder / "log").read_text())
            time.sleep(0.05)

    def _answers(self) -> bool:
        try:
            psycopg.connect(self._address("postgres")).close()
        except psycopg.OperationalError:
            return False
        return True

    def stop(self, how: signal.Signals = signal.SIGINT) -> None:
        """Stop it: SIGINT ends every connection first; SIGQUIT is a crash, made good at the next start."""
        if self._process is not None:
            self._process.send_signal(how)
            self._process.wait(PATIENCE_S)
            self._process = None

    def remove(self) -> None:
        """Stop it and take its files away."""
        self.stop()
        shutil.rmtree(self.folder)

    def _address(self, name: str) -> str:
        return f"postgresql://{SUPERUSER}@/{name}?host={self.folder}"

    def run(self, statement: SQL, *names: str) -> None:
        """Run one statement on the server, outside a transaction; `names` fill its places."""
        with closing(psycopg.connect(self._address("postgres"), autocommit=True)) as connection:
            connection.execute(statement.format(*map(Identifier, names)))

    def create(self, template: str | None = None) -> str:
        """A new database, empty or a copy of another one; its URL, as a person would write it."""
        name = f"evenbed{next(self._numbers)}"
        copied = SQL("CREATE DATABASE {} TEMPLATE {} STRATEGY file_copy")  # a third of the work of the usual one
        self.run(copied, name, _name_in(template) if template else "template1")
        return self._address(name)

    def drop(self, url: str) -> None:
        """Take a database away, whoever is still connected to it."""
        self.run(SQL("DROP DATABASE {} WITH (FORCE)"), _name_in(url))


def _name_in(url: str) -> str:
    name = make_url(url).database
    assert name is not None
    return name


def _memory() -> str | None:
    """A folder that is kept in memory, where there is a large one: its databases are made in a third of the time."""
    is_usable = os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free >= ENOUGH_MEMORY
    return str(MEMORY) if is_usable else None


def _unprivileged() -> str | None:
    """Who the server runs as where we are root; None for ourselves."""
    if os.getuid() != 0:
        return None
    known = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in known else "nobody"


@contextmanager
def running_cluster(*, durable: bool = False) -> Iterator[Cluster]:
    """A server for as long as it is needed."""
    cluster = Cluster(durable=durable)
    try:
        cluster.start()
        yield cluster
    finally:
        cluster.remove()
