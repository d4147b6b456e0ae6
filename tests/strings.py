"""Every text of a piece of data, however deep it lies."""

from collections.abc import Iterator


def strings(data: object) -> Iterator[str]:
    """The texts of tables and lists in order; the names of a table's fields are none."""
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for value in data.values():
            yield from strings(value)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from strings(value)
