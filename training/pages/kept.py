"""What a browser keeps of what somebody typed or chose: the seal it is kept under, and whose it is.

A browser keeps what the server does not have yet, enciphered under a seal that is different for every person and every
thing. The seal stands only in pages of that person, which the browser forgets when they log out: what it still keeps
then can be read by nobody until they come back.
"""

import base64
from dataclasses import dataclass

from django.utils.crypto import salted_hmac

from training.models import User


@dataclass(frozen=True, slots=True)
class Kept:
    """Whose it is (`person`), what it belongs to (`thing`, as an attempt's reference), and its `seal`, a key of 256
    bits in base64. Neither person nor seal can be turned back into anything else."""

    person: str
    thing: str
    seal: str


def _derived(purpose: str, text: str) -> bytes:
    return salted_hmac(f"training.kept.{purpose}", text, algorithm="sha256").digest()


def person_tag(person: User) -> str:
    """What stands beside something kept to say whose it is."""
    return _derived("person", str(person.pk)).hex()[:16]


def kept_of(person: User, thing: object) -> Kept:
    """Under which seal a browser keeps what a person gave of a thing; the same every time, no query."""
    seal = _derived("seal", f"{person.pk}/{thing}")
    return Kept(person_tag(person), str(thing), base64.b64encode(seal).decode("ascii"))
