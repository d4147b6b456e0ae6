"""Rows that the database itself refuses to change or delete, whoever asks: declared on their model as `guards`.

    guards: ClassVar = [NeverDeleted(MESSAGE), NeverChanged(MESSAGE, but=["ended_at"], when="OLD.ended_at IS NOT NULL")]

Each guard is a trigger. Before a migration all are dropped, because a rebuilt table would lose its own and a table that
another's trigger reads could not be rebuilt; after it they are made as the models declare them. If the migration stops
halfway they stay away, and so does the site (`training.config.wsgi`), until `manage.py migrate` has run through.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, NamedTuple

from django.apps import apps
from django.core.checks import CheckMessage, Error
from django.db import connections, models, router, transaction
from django.db.backends.base.base import BaseDatabaseWrapper


class Unguarded(Exception):
    """A guard does not stand in the database as it is declared; the words name it and the way out."""


@dataclass(frozen=True)
class NeverDeleted:
    """Refuse, with `message`, to delete a row that fits `when`: SQL on the OLD row that SQLite and PostgreSQL read."""

    message: str
    when: str = "TRUE"
    but: ClassVar[Sequence[str]] = ()
    act: ClassVar[str] = "DELETE"


@dataclass(frozen=True)
class NeverChanged:
    """Refuse, with `message`, to write a row that fits `when`, on OLD and NEW, unless no field but `but` is written."""

    message: str
    when: str = "TRUE"
    but: Sequence[str] = ()
    act: ClassVar[str] = "UPDATE"


Guard = NeverDeleted | NeverChanged


def guards_by_model() -> dict[type[models.Model], Sequence[Guard]]:
    """The guards of every model that declares some."""
    return {model: model.guards for model in apps.get_models() if hasattr(model, "guards")}


def drop_guards(*, using: str, plan: Sequence[object], **kwargs: Any) -> None:
    """Drop every guard before the migrations of `plan`; without any, a site at work stays guarded."""
    if plan:
        _settle(connections[using], {})


def make_guards(*, using: str, **kwargs: Any) -> None:
    """Make the guards as they are declared: what differs anew, and away with what is declared no more."""
    connection = connections[using]
    tables = connection.introspection.table_names()  # migrating back to an earlier state leaves some out
    _settle(connection, {name: one for name, one in _declared(connection).items() if one.table in tables})


def check_guards(*, databases: Sequence[str] | None = None, **kwargs: Any) -> list[CheckMessage]:
    """A system check of databases: each guard stands as its model declares it, and no other does."""
    return [
        Error(
            f"{name}: this guard in the database {using!r} is not as its model declares it.",
            hint="Rows that must never change can be rewritten: run manage.py migrate.",
            id="training.E010",
        )
        for using in databases or ()
        for name in _astray(connections[using])
    ]


def refuse_unguarded() -> None:
    """Raise Unguarded unless each guard in the site's database stands as declared."""
    if astray := _astray(connections["default"]):
        raise Unguarded(f"not as declared in the database: {', '.join(astray)}; run manage.py migrate first")


class _Trigger(NamedTuple):
    table: str
    sql: str
    body: str = ""  # of the function it calls; on SQLite it holds its own

    @property
    def shown(self) -> tuple[str, str]:
        """As the database tells it back: PostgreSQL drops the quotation marks that a name does not need."""
        return self.sql.replace('"', ""), self.body


_STANDING = {
    "sqlite": "SELECT name, tbl_name, sql, '' FROM sqlite_master WHERE type = 'trigger' AND name LIKE 'guard%'",
    # one that was disabled by hand is not as declared
    "postgresql": "SELECT tgname, '', pg_get_triggerdef(t.oid, true) || replace(tgenabled::text, 'O', ''), prosrc"
    " FROM pg_trigger t JOIN pg_proc p ON p.oid = tgfoid"
    " WHERE pg_table_is_visible(tgrelid) AND tgname LIKE 'guard%'",
}


def _standing(connection: BaseDatabaseWrapper) -> dict[str, _Trigger]:
    if connection.vendor not in _STANDING:
        raise NotImplementedError(f"{connection.vendor} is not served; use SQLite or PostgreSQL")
    with connection.cursor() as cursor:
        cursor.execute(_STANDING[connection.vendor])
        return {name: _Trigger(*told) for name, *told in cursor.fetchall()}


def _declared(connection: BaseDatabaseWrapper) -> dict[str, _Trigger]:
    return {
        (name := f"guard_{model._meta.db_table}_{number}"): _trigger(connection, name, model, guard)
        for model, guards in guards_by_model().items()
        if router.allow_migrate_model(connection.alias, model)
        for number, guard in enumerate(guards)
    }


def _trigger(connection: BaseDatabaseWrapper, name: str, model: type[models.Model], guard: Guard) -> _Trigger:
    quote, table = connection.ops.quote_name, model._meta.db_table
    writable = {model._meta.get_field(field).name for field in guard.but}  # a misspelt one raises
    columns = [quote(str(field.column)) for field in model._meta.concrete_fields if field.name not in writable]
    of = f" OF {', '.join(columns)}" if writable else ""
    head = f"CREATE TRIGGER {name} BEFORE {guard.act}{of} ON {quote(table)} FOR EACH ROW"
    if connection.vendor == "sqlite":
        return _Trigger(table, f"{head} WHEN ({guard.when}) BEGIN SELECT RAISE(ABORT, '{guard.message}'); END")
    # WHEN may not read another table there, so the function asks it
    returned = "OLD" if guard.act == "DELETE" else "NEW"
    body = f"BEGIN IF {guard.when} THEN RAISE EXCEPTION '{guard.message}'; END IF; RETURN {returned}; END"
    return _Trigger(table, f"{head} EXECUTE FUNCTION {name}()", body)


def _astray(connection: BaseDatabaseWrapper) -> list[str]:
    declared = {name: one.shown for name, one in _declared(connection).items()}
    standing = {name: one.shown for name, one in _standing(connection).items()}
    return sorted(name for name in {*declared, *standing} if declared.get(name) != standing.get(name))


def _settle(connection: BaseDatabaseWrapper, wanted: dict[str, _Trigger]) -> None:
    standing = _standing(connection)
    kept = {name for name, one in standing.items() if name in wanted and one.shown == wanted[name].shown}
    with transaction.atomic(using=connection.alias), connection.cursor() as cursor:
        for name in sorted(standing.keys() - kept):
            if connection.vendor == "sqlite":
                cursor.execute(f"DROP TRIGGER {name}")
            else:
                cursor.execute(f"DROP FUNCTION {name}() CASCADE")
        for name in sorted(wanted.keys() - kept):
            if wanted[name].body:
                cursor.execute(
                    f"CREATE OR REPLACE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql AS $${wanted[name].body}$$"
                )
            cursor.execute(wanted[name].sql)
