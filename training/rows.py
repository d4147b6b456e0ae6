"""Many rows at once: made ready for the database before the writer's lock is taken, and stored under it in no time.

Django's `bulk_create` and `bulk_update` make the values ready and put the statement together under the lock.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from django.db import connection
from django.db.models import Field, Model

Values = list[Any]  # of one row, as the database takes them


def ready(rows: Iterable[Model], fields: Sequence[str]) -> list[Values]:
    """The values of these fields of each row."""
    return [
        [field.get_db_prep_save(getattr(row, field.attname), connection) for field in _fields(type(row), fields)]
        for row in rows
    ]


def insert(model: type[Model], fields: Sequence[str], rows: Sequence[Values]) -> None:
    """Store new rows of which these are the values of these fields."""
    names = [_quoted(str(field.column)) for field in _fields(model, fields)]
    _run("INSERT INTO {} ({}) VALUES ({})", model, ", ".join(names), ", ".join(["%s"] * len(names)), rows=rows)


def update(model: type[Model], fields: Sequence[str], *, key: Sequence[str], rows: Sequence[Values]) -> None:
    """Change `fields` of the rows that the `key` fields find; each row gives the values of `fields`, then of `key`."""
    new, found = ([f"{_quoted(str(field.column))} = %s" for field in _fields(model, one)] for one in (fields, key))
    _run("UPDATE {} SET {} WHERE {}", model, ", ".join(new), " AND ".join(found), rows=rows)


def _run(statement: str, model: type[Model], *parts: str, rows: Sequence[Values]) -> None:
    if rows:
        with connection.cursor() as cursor:
            cursor.executemany(statement.format(_quoted(model._meta.db_table), *parts), rows)


def _fields(model: type[Model], names: Sequence[str]) -> list["Field[Any, Any]"]:
    known = {field.name: field for field in model._meta.concrete_fields}
    return [known[name] for name in names]


def _quoted(name: str) -> str:
    return connection.ops.quote_name(name)
