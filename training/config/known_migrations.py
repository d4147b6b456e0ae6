"""A database is taken only as far as this version knows it: migrations made elsewhere have left other tables."""

from django.db import connections
from django.db.migrations.loader import MigrationLoader

OWN = ("training", "assessments", "certificates")


class UnknownMigrations(Exception):
    """The database went through migrations that this version does not have; the words name them."""


def refuse_unknown_migrations(using: str = "default") -> None:
    """Raise UnknownMigrations where migrations of our apps were applied that do not come with this version."""
    loader = MigrationLoader(connections[using])
    strange = [one for one in loader.applied_migrations if one[0] in OWN and one not in loader.disk_migrations]
    if strange:
        raise UnknownMigrations(
            f"the database {using!r} went through {', '.join(sorted(map('.'.join, strange)))}, which this version does "
            "not have: it is of a later version, or from before the first release; nothing was changed. Use the "
            "version that made it, or begin with an empty database."
        )
