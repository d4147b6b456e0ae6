"""The field of a stored JSON document: writes the number of its schema, and is the one reader of what was written."""

from collections.abc import Mapping
from typing import Any

from django.db import models
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.models.fields.json import KeyTransform

from training.stored import Upgrade, enveloped, opened


class DocumentField(models.JSONField):
    """A JSON value; `schema` is the number that is written now, `older` brings each earlier one to it."""

    def __init__(self, *args: Any, schema: int = 1, older: Mapping[int, Upgrade] | None = None, **kwargs: Any) -> None:
        self.schema, self.older = schema, older or {}
        super().__init__(*args, **kwargs)

    def deconstruct(self) -> tuple[str, str, Any, Any]:
        """As migrations write it down; they hold rows of one schema and need no upgrades."""
        name, path, args, kwargs = super().deconstruct()
        return name, path, args, kwargs | ({"schema": self.schema} if self.schema != 1 else {})

    def get_db_prep_save(self, value: Any, connection: BaseDatabaseWrapper) -> Any:
        """Put the value into its envelope; look-ups inside it are not touched."""
        is_content = value is not None and not hasattr(value, "as_sql")  # an expression envelopes its own values
        return super().get_db_prep_save(enveloped(value, schema=self.schema) if is_content else value, connection)

    def from_db_value(self, value: Any, expression: Any, connection: BaseDatabaseWrapper) -> Any:
        """Take the value out of its envelope. Raises UnknownSchema."""
        found = super().from_db_value(value, expression, connection)
        if found is None or isinstance(expression, KeyTransform):
            return found
        return opened(found, name=str(self), schema=self.schema, older=self.older)
