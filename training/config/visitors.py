"""The store of visitors: sessions and the counters of limits, apart from the database of examinations.

Whoever is not known writes here at most, and the site answers when nothing can be written here: limits are then counted
by each process for itself, pages are shown as ever, and only logging in and out waits.
"""

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from typing import Any, ClassVar

from django.contrib.sessions.backends import db
from django.contrib.sessions.middleware import SessionMiddleware
from django.core.cache.backends.db import DatabaseCache
from django.core.cache.backends.locmem import LocMemCache
from django.db import DatabaseError, IntegrityError, connections, models, router
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

ALIAS = "visitors"
APPS = ("sessions", "django_cache")
SECONDS_ASIDE = 5  # for so long a store that refused is left alone


class StoreClosed(Exception):
    """Nothing can be written to the store of visitors now."""


class VisitorsRouter:
    """Sends sessions and the cache to the store of visitors, and nothing else."""

    def _alias(self, model: type[models.Model], **hints: Any) -> str | None:
        return ALIAS if model._meta.app_label in APPS else None

    db_for_read = db_for_write = _alias

    def allow_migrate(self, alias: str, app_label: str, **hints: Any) -> bool:
        """Each table in its own store."""
        return (alias == ALIAS) == (app_label in APPS)


class SessionStore(db.SessionStore):
    """Sessions in their table. What cannot be read is nobody's session for now; what cannot be written: StoreClosed."""

    def load(self) -> dict[str, Any]:
        """The session, empty while the store cannot be read; the cookie stays then."""
        try:
            return super().load()
        except DatabaseError:
            return {}

    def save(self, must_create: bool = False) -> None:
        """Store the session."""
        with _written():
            super().save(must_create=must_create)

    def delete(self, session_key: str | None = None) -> None:
        """Take the session out of the store."""
        with _written():
            super().delete(session_key)

    def create(self) -> None:
        """A new session under a key nobody has."""
        with _written():
            super().create()


@contextmanager
def _written() -> Iterator[None]:
    try:
        yield
    except DatabaseError as problem:
        raise StoreClosed("sessions cannot be written now") from problem


class VisitorsMiddleware(SessionMiddleware):
    """Sessions by cookie; a page is answered whether or not its session can be stored."""

    def process_response(self, request: HttpRequest, response: HttpResponse) -> HttpResponse:
        """The answer, with the cookie of a session that could be stored."""
        try:
            return super().process_response(request, response)
        except StoreClosed:
            return response

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Where a page needs the session stored, as logging in does: say that this has to wait."""
        if not isinstance(exception, StoreClosed):
            return None
        answer = render(request, "training/store_closed.html", status=503)
        answer["Retry-After"] = str(SECONDS_ASIDE)
        return answer


class VisitorsCache(DatabaseCache):
    """The counters of limits in a table, so that they hold across processes.

    While nothing can be written there each process counts by itself: a limit is then as many times looser as there are
    processes, and never gone.
    """

    closed_until: ClassVar[float] = 0.0

    def __init__(self, table: str, params: dict[str, Any]) -> None:
        super().__init__(table, params)
        self._aside = LocMemCache(ALIAS, params)

    def get_many(self, *given: Any, **named: Any) -> dict[Any, Any]:
        """The values there are of some keys."""
        found: dict[Any, Any] = self._ask("get_many", *given, **named)
        return found

    def set(self, *given: Any, **named: Any) -> None:
        """Keep a value."""
        self._ask("set", *given, **named)

    def add(self, *given: Any, **named: Any) -> bool:
        """Keep a value where there is none; False where there is one."""
        return bool(self._ask("add", *given, **named))

    def touch(self, *given: Any, **named: Any) -> bool:
        """Keep a value longer; False where there is none."""
        return bool(self._ask("touch", *given, **named))

    def delete(self, *given: Any, **named: Any) -> bool:
        """Forget a value; False where there was none."""
        return bool(self._ask("delete", *given, **named))

    def _ask(self, act: str, *given: Any, **named: Any) -> Any:
        if time.monotonic() >= self.closed_until:
            refused: list[DatabaseError] = []

            def noted(execute: Callable[..., Any], *statement: Any) -> Any:
                try:
                    return execute(*statement)
                except IntegrityError:  # the key is there already: that is how Django's own cache finds out
                    raise
                except DatabaseError as problem:  # Django's own cache passes over it in silence
                    refused.append(problem)
                    raise

            connection = connections[router.db_for_write(self.cache_model_class)]
            with suppress(DatabaseError), connection.execute_wrapper(noted):
                answer = getattr(super(), act)(*given, **named)
                if not refused:
                    return answer
            type(self).closed_until = time.monotonic() + SECONDS_ASIDE
        return getattr(self._aside, act)(*given, **named)
