"""A code of digits with which the keeper leaves the stand; only its hash is kept."""

from __future__ import annotations

import hashlib
import hmac
import os

ROUNDS = 200_000
SHORTEST, LONGEST = 4, 8


def hashed(code: str, salt: bytes | None = None) -> str:
    """What is kept of a code: salt and PBKDF2 hash, in hexadecimal digits.

    Raises
    ------
    ValueError
        The code is not of 4 to 8 digits.

    Examples
    --------
    >>> matches("2468", hashed("2468")), matches("1357", hashed("2468"))
    (True, False)
    """
    if not (code.isascii() and code.isdigit() and SHORTEST <= len(code) <= LONGEST):
        raise ValueError("a staff code has 4 to 8 digits")
    salt = os.urandom(8) if salt is None else salt
    made = hashlib.pbkdf2_hmac("sha256", code.encode(), salt, ROUNDS)
    return f"{salt.hex()}:{made.hex()}"


def matches(code: str, kept: str) -> bool:
    """Whether a code is the one that was kept."""
    salt, _, _ = kept.partition(":")
    try:
        return hmac.compare_digest(hashed(code, bytes.fromhex(salt)), kept)
    except ValueError:
        return False
