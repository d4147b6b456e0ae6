"""The sources of an edition: read from its file, and listed for those who want to look something up."""

from collections.abc import Mapping

from training.rulebook.citations import (
    LAW,
    PARAGRAPH,
    READINGS,
    SAID_OUTRIGHT,
    SOURCE_KINDS,
    SUMMARY,
    Library,
    Reading,
    Source,
)
from training.rulebook.loader import Place
from training.trade.reading import shown
from training.trade.speech import saying

SOURCES = "sources.toml"
_SOURCE = frozenset({"id", "kind", "publisher", "title", "year", "address", "cited", "law_in", "place", "read"})
_READ = frozenset({"what", "at", "on", "address", "by"})


def read_library(files: Mapping[str, Mapping[str, object]], home: str) -> Library:
    """The sources of these files, each once, for a country whose law counts where no state is named."""
    sources: dict[str, Source] = {}
    for file, data in files.items():
        place = Place(file)
        place.keys(data, {"source"})
        for number, table in enumerate(place.tables(data, "source"), start=1):
            id = Place(file, f"source number {number}").text(table, "id")
            if id in sources or id in SAID_OUTRIGHT:
                place.refuse("id", f"{shown(id)} is used twice")
            sources[id] = _source(table, Place(file, f'source "{id}"'))
    return Library(sources, home)


def _source(table: Mapping[str, object], place: Place) -> Source:
    place.keys(table, _SOURCE)
    kind = place.word(table, "kind", SOURCE_KINDS)
    law_in = place.text(table, "law_in", default="")
    if law_in and kind != LAW:
        place.refuse("law_in", f"{shown(law_in)} is not accepted; only a law holds in a place")
    entries = table.get("read")
    if not isinstance(entries, list):
        place.refuse("read", f"{shown(entries)} is not accepted; give what was read of it, [] for nothing")
    return Source(
        id=place.text(table, "id"),
        kind=kind,
        publisher=place.text(table, "publisher"),
        title=place.text(table, "title"),
        year=year if (year := place.text(table, "year")).isdigit() else saying(year),
        address=place.text(table, "address", default=""),
        cited=place.text(table, "cited"),
        law_in=law_in,
        place=saying(place.text(table, "place")) if law_in else "",
        read=tuple(_reading(entry, place) for entry in entries),
    )


def _reading(table: Mapping[str, object], place: Place) -> Reading:
    place.keys(table, _READ)
    what = place.word(table, "what", READINGS)
    at = place.words(table, "at", None) if what == PARAGRAPH else place.words(table, "at", None, default=())
    return Reading(
        what=what,
        at=at,
        on=place.day(table, "on"),
        address=place.text(table, "address", default=""),
        by=saying(place.text(table, "by")) if what == SUMMARY else "",
    )
