"""A migration operation that makes the database itself refuse to change or delete a row.

SQLite drops a table's triggers when a later migration rebuilds the table, and refuses to rebuild a table that another
trigger reads: such a migration puts its own operations into `lifted`.
"""

from collections.abc import Sequence
from typing import Any

from django.db.backends.base.schema import BaseDatabaseSchemaEditor
from django.db.migrations.operations.base import Operation


class Refuse(Operation):
    """Refuse an UPDATE (of some columns, or any) or a DELETE of rows that fit `when`, an SQL condition on the OLD row.

    SQLite and PostgreSQL; on another database the migration stops rather than leave the rows unguarded.
    """

    reduces_to_sql = True
    reversible = True

    def __init__(self, act: str, table: str, *, message: str, when: str = "", columns: Sequence[str] = ()) -> None:
        self.act, self.table, self.message, self.when, self.columns = act, table, message, when, tuple(columns)
        self.trigger = f"refuse_{act.lower()}_{table}"

    def state_forwards(self, app_label: str, state: Any) -> None:
        """Models do not change."""

    def database_forwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: Any, to_state: Any
    ) -> None:
        of = f" OF {', '.join(self.columns)}" if self.columns else ""
        head = f"CREATE TRIGGER {self.trigger} BEFORE {self.act}{of} ON {self.table} FOR EACH ROW"
        when = f" WHEN ({self.when})" if self.when else ""
        if schema_editor.connection.vendor == "sqlite":
            schema_editor.execute(f"{head}{when} BEGIN SELECT RAISE(ABORT, '{self.message}'); END")
        elif schema_editor.connection.vendor == "postgresql":
            # a condition that reads another table is not allowed in WHEN there, so the function asks it
            condition = self.when or "TRUE"
            schema_editor.execute(
                f"CREATE FUNCTION {self.trigger}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN "
                f"IF {condition} THEN RAISE EXCEPTION '{self.message}'; END IF; "
                f"RETURN {'OLD' if self.act == 'DELETE' else 'NEW'}; END $$"
            )
            schema_editor.execute(f"{head} EXECUTE FUNCTION {self.trigger}()")
        else:
            raise NotImplementedError(f"{schema_editor.connection.vendor} is not served; use SQLite or PostgreSQL")

    def database_backwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: Any, to_state: Any
    ) -> None:
        if schema_editor.connection.vendor == "postgresql":
            schema_editor.execute(f"DROP FUNCTION {self.trigger}() CASCADE")
        else:
            schema_editor.execute(f"DROP TRIGGER {self.trigger}")

    def describe(self) -> str:
        return f"Refuse {self.act} of {self.table}"


class Allow(Refuse):
    """Take back what a `Refuse` did, for the length of a migration."""

    database_forwards, database_backwards = Refuse.database_backwards, Refuse.database_forwards

    def describe(self) -> str:
        return f"Allow {self.act} of {self.table}"


def lifted(kept: Sequence[Refuse], during: Sequence[Operation]) -> list[Operation]:
    """Operations of a later migration that changes guarded tables: the guards off, the change, the guards on again."""
    off = [Allow(one.act, one.table, message=one.message, when=one.when, columns=one.columns) for one in kept]
    return [*off, *during, *kept]
