"""Tables of markings on a lesson page: a size read part by part, lines of the load index table, speed symbols."""

from __future__ import annotations

from collections.abc import Sequence

from training.course.blocks import Page
from training.course.lessons import Block, CourseError
from training.course.prose import table, words
from training.rulebook import quantity, show
from training.rulebook.markings import (
    CONSTRUCTIONS,
    Designation,
    MarkingError,
    dimensions,
    load_capacity_text,
    load_ranges,
    read_designation,
    rim_text,
    speed_limits,
)
from training.trade.speech import say, saying
from training.trade.words import capital

_BUILDS = {"radial": saying("radial"), "bias": saying("bias"), "bias-belted": saying("bias with belts")}
_KINDS = {
    "passenger": saying("passenger car"), "light-truck": saying("light truck"), "commercial": saying("delivery van"),
    "temporary-spare": saying("temporary spare"), "special-trailer": saying("trailer"), "truck": saying("heavy truck"),
    "motorcycle": saying("motorcycle"),
}  # fmt: skip
_SIZES = saying("UN Regulation No. 30 / No. 54 (rounding order from memory)")
_LOADS = saying("UN Regulation No. 30 / No. 54, load-capacity index table; the pounds are converted")
_SPEEDS = saying("UN Regulation No. 30 / No. 54, speed category table; the miles are converted")
Row = tuple[str, str]


def size_table(block: Block, page: Page) -> str:
    """`::size`: one size read part by part, with the dimensions that follow from it."""
    try:
        size = read_designation(block.argument)
    except MarkingError as error:
        raise CourseError(f"::size {block.argument}: {error}") from error
    rows = [*_size_rows(size, page.prefer), *_service_rows(size, page.prefer)]
    found = dimensions(size)
    source = found.source if found is not None else _SIZES
    return _table(
        say("{size}, part by part", size=size.text),
        (say("Molded"), say("What it says")),
        rows,
        capital(source),
        page,
    )


def loads(block: Block, page: Page) -> str:
    """`::loads`: the lines of the load index table from one index to another."""
    first, last = _ends(block, [str(index) for index in range(181)])
    rows = [(str(index), load_capacity_text(index, prefer=page.prefer)) for index in range(first, last + 1)]
    return _table(
        say("Load index: greatest load of one tire"), (say("Load index"), say("Greatest load")), rows, _LOADS, page
    )


def speeds(block: Block, page: Page) -> str:
    """`::speeds`: the speed symbols from one to another, the slowest first."""
    limits = speed_limits()
    first, last = _ends(block, [limit.symbol for limit in limits])
    rows = [(limit.symbol, limit.shown(prefer=page.prefer)) for limit in limits[first : last + 1]]
    return _table(
        say("Speed symbol: highest speed, slowest first"), (say("Symbol"), say("Highest speed")), rows, _SPEEDS, page
    )


def _ends(block: Block, known: Sequence[str]) -> tuple[int, int]:
    """The places of the first and the last name of a directive among those of the table."""
    names = block.argument.split()
    for name in names:
        if name not in known:
            raise CourseError(f"::{block.kind}: {name!r} is not known; choose {known[0]} to {known[-1]}")
    if len(names) != len(("first", "last")) or known.index(names[0]) > known.index(names[1]):
        raise CourseError(f"::{block.kind} {block.argument}: give the first and the last line of the table")
    return known.index(names[0]), known.index(names[1])


def _size_rows(size: Designation, prefer: str) -> list[Row]:
    found = dimensions(size)
    rows: list[Row] = []
    if size.prefix:
        rows.append((size.prefix, say("built as: {kind}", kind=_KINDS[size.kind])))
    if size.overall_diameter_code:
        diameter = _inches(size.overall_diameter_code, prefer)
        rows.append((size.overall_diameter_code, say("overall diameter: {length}", length=diameter)))
    if size.section_code:
        rows.append((size.section_code, say("section width: {length}", length=_inches(size.section_code, prefer))))
    if size.section_width_mm:
        rows.append(
            (str(size.section_width_mm), say("section width: {length}", length=_mm(size.section_width_mm, prefer)))
        )
    if size.aspect_percent and found and found.section_height_mm:
        height = _mm(found.section_height_mm, prefer)
        meaning = say(
            "aspect ratio: the section height is {percent}% of the width, {height}",
            percent=size.aspect_percent,
            height=height,
        )
        rows.append((str(size.aspect_percent), meaning))
    sign = "-" if "-" in size.size else size.construction
    rows.append((sign, say("build: {build}", build=_BUILDS[CONSTRUCTIONS[size.construction]])))
    rows.append((size.rim_code, say("rim diameter: {length}", length=rim_text(size.rim_code, prefer=prefer))))
    if size.suffix and not size.prefix:
        rows.append((size.suffix, say("built as: {kind}", kind=_KINDS[size.kind])))
    if size.aspect_percent and found and found.outer_diameter_mm:
        rows.append(
            (size.size, say("overall diameter of the new tire: {length}", length=_mm(found.outer_diameter_mm, prefer)))
        )
    return rows


def _service_rows(size: Designation, prefer: str) -> list[Row]:
    rows: list[Row] = []
    single, dual, limit = size.load_index_single, size.load_index_dual, size.speed
    if single is not None:
        load = load_capacity_text(single, prefer=prefer)
        alone = say("load index: {load}", load=load)
        if dual is not None:
            alone = say("load index, fitted alone: {load}", load=load)
        rows.append((str(single), alone))
    if dual is not None:
        load = load_capacity_text(dual, prefer=prefer)
        rows.append((str(dual), say("load index, each of a dual pair: {load}", load=load)))
    if limit is not None:
        rows.append((limit.symbol, say("speed symbol: {speed}", speed=limit.shown(prefer=prefer))))
    if size.load_range is not None:
        plies = load_ranges()[size.load_range]
        rows.append(
            (
                say("load range {letter}", letter=size.load_range),
                say("ply rating {plies}: a strength, not a count of plies", plies=plies),
            )
        )
    return rows


def _mm(value: int, prefer: str) -> str:
    return show(quantity(value, "mm"), prefer=prefer)


def _inches(code: str, prefer: str) -> str:
    return show(quantity(float(code), "in"), prefer=prefer)


def _table(caption: str, heads: Row, rows: Sequence[Row], source: str, page: Page) -> str:
    """Rows of a sign and what it says. What is printed counts for the content version, where it is from does not."""
    page.outcomes += [f"{sign}|{meaning}" for sign, meaning in rows]
    lines = [
        f'<tr><th scope="row">{words(sign)}</th><td data-label="{words(heads[1])}">{words(meaning)}</td></tr>'
        for sign, meaning in rows
    ]
    page.tables.append((caption, source))
    return table(caption, heads, lines)
