"""Codes and tokens: how they are made, and what is kept of them. Neither is ever stored as it is."""

import hashlib
import secrets

ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Without letters and digits that are taken for each other in handwriting (0 O, 1 I L, U V)."""
GROUPS, GROUP = 2, 4
WORK = {"n": 2**14, "r": 8, "p": 1}


def make_code() -> str:
    """A fresh join code such as `K7QM-3XFP`: 8 characters of 30, about 39 bits."""
    return "-".join("".join(secrets.choice(ALPHABET) for _ in range(GROUP)) for _ in range(GROUPS))


def hash_of_code(code: str, identity: str) -> str:
    """What is kept of a code: slow to try (scrypt), and of no use with another database's identity.

    Case, blanks and hyphens of the code do not matter.
    """
    plain = "".join(c for c in code.upper() if c.isalnum())
    return hashlib.scrypt(plain.encode("utf-8", "surrogatepass"), salt=identity.encode(), **WORK).hex()


def make_token() -> str:
    """A device's token: 256 random bits."""
    return secrets.token_urlsafe(32)


def hash_of_token(token: str) -> str:
    """What is kept of a token: a plain hash is enough, for nobody can guess 256 bits."""
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()
