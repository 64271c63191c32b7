"""Which engine computed a plan: its version, and a hash over its own source files.

Two engines with one hash give one answer; a signed-off plan carries it, and the phone compares it with the office's.
"""

import hashlib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from evenbed.engine.document.fields import described

VERSION = "1"


@dataclass(frozen=True)
class Identity:
    """The engine's name for itself."""

    version: str = described(about="Version of what the engine computes")
    hash: str = described(about="SHA-256 over its source files, in hexadecimal")


@cache
def identity() -> Identity:
    """This engine's version and hash: names and bytes of every source file, in the order of their names."""
    digest = hashlib.sha256()
    home = Path(__file__).parent
    for path in sorted(home.rglob("*.py"), key=lambda p: p.relative_to(home).as_posix()):
        source = path.read_bytes()
        digest.update(f"{path.relative_to(home).as_posix()} {len(source)}\n".encode())
        digest.update(source)
    return Identity(VERSION, digest.hexdigest())
