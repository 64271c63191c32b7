"""Codes and tokens: how they are made, and what is kept of them. Neither is ever stored as it is."""

import hashlib
import hmac
import secrets

ALPHABET = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Without letters and digits that are taken for each other in handwriting (0 O, 1 I L, U V)."""
GROUPS, GROUP = 2, 4
WORK = {"n": 2**14, "r": 8, "p": 1}
SALT_BYTES = 16


def make_code() -> str:
    """A fresh join code such as `K7QM-3XFP`: 8 characters of 30, about 39 bits."""
    return "-".join("".join(secrets.choice(ALPHABET) for _ in range(GROUP)) for _ in range(GROUPS))


def hash_of_code(code: str) -> str:
    """What is kept of a code: slow to try (scrypt) and salted, for a code is short."""
    salt = secrets.token_bytes(SALT_BYTES)
    return f"{salt.hex()}:{_slow_hash(code, salt).hex()}"


def is_code(code: str, kept: str) -> bool:
    """True where the code is the one whose hash was kept. Case, blanks and hyphens do not matter."""
    salt, expected = (bytes.fromhex(part) for part in kept.split(":"))
    return hmac.compare_digest(_slow_hash(code, salt), expected)


def make_token() -> str:
    """A device's token: 256 random bits."""
    return secrets.token_urlsafe(32)


def hash_of_token(token: str) -> str:
    """What is kept of a token: a plain hash is enough, for nobody can guess 256 bits."""
    return hashlib.sha256(token.encode("utf-8", "surrogatepass")).hexdigest()


def _slow_hash(code: str, salt: bytes) -> bytes:
    plain = "".join(c for c in code.upper() if c.isalnum())
    return hashlib.scrypt(plain.encode("utf-8", "surrogatepass"), salt=salt, **WORK)
