"""Who says so: a published source, the paragraph a rule is read in, and what that is called in a place."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from training.trade import reading
from training.trade.composed import Composed
from training.trade.lists import all_of
from training.trade.reading import shown
from training.trade.speech import say, saying

LAW, STANDARD, GUIDANCE, PRACTICE, MEMORY = "law", "standard", "guidance", "common-practice", "from-memory"
SOURCE_KINDS = (LAW, STANDARD, GUIDANCE, PRACTICE)
WHOLE_TEXT, PARAGRAPH, SUMMARY = "whole text", "paragraph", "summary"
READINGS = (WHOLE_TEXT, PARAGRAPH, SUMMARY)
_PLACE = "{at}"
_MOST_TOLD = 64  # a jurisdiction is what somebody typed


@dataclass(frozen=True, slots=True)
class Reading:
    """What somebody read of a source: `what` is one of READINGS, `by` whose summary it was.

    `at` are the paragraphs, or of a source without any the parts in words.
    """

    what: str
    at: tuple[str, ...]
    on: date
    address: str
    by: str = ""

    def covers(self, at: str) -> bool:
        """Is this paragraph among what was read?

        >>> Reading("paragraph", ("393.75(b)",), date(2026, 11, 29), "").covers("393.75(b)(1)")
        True
        """
        if self.what == WHOLE_TEXT or not self.at or not at:
            return True
        return any(at == one or (at.startswith(one) and not at[len(one)].isalnum()) for one in self.at)


@dataclass(frozen=True, slots=True)
class Source:
    """A text that rules are taken from. `cited` is how it is cited, with "{at}" where the paragraph stands.

    A law holds in `law_in`, a country or a state as a case names it, or wherever the edition does; `place` is that in
    words.
    """

    id: str
    kind: str
    publisher: str
    title: str
    year: str
    address: str
    cited: str
    law_in: str = ""
    place: str = ""
    read: tuple[Reading, ...] = ()

    @property
    def has_paragraphs(self) -> bool:
        """Is a paragraph to be named when it is cited?"""
        return _PLACE in self.cited

    def is_law_in(self, place: str) -> bool:
        """Does it hold as law in a country or state, such as "US" or "US-UT"?"""
        return self.kind == LAW and (not self.law_in or f"{place}-".startswith(f"{self.law_in}-"))


COMMON_PRACTICE = Source(PRACTICE, PRACTICE, "", saying("common practice"), "", "", saying("common practice"))
FROM_MEMORY = Source(MEMORY, MEMORY, "", saying("from memory"), "", "", saying("from memory"))
_NOBODY_ELSE = saying("common practice, no published source")
LAW_AWAY = saying("law in {places}: {sources}")
# what a rule is besides law somewhere: where nobody names a state, and in the one that is named
_ELSEWHERE = {
    STANDARD: saying("law in {places}; standard elsewhere: {sources}"),
    GUIDANCE: saying("law in {places}; guidance elsewhere: {sources}"),
    PRACTICE: saying("law in {places}; common practice elsewhere: {sources}"),
}
_HERE = {
    STANDARD: saying("law in {places}; standard here: {sources}"),
    GUIDANCE: saying("law in {places}; guidance here: {sources}"),
    PRACTICE: saying("law in {places}; common practice here: {sources}"),
}
SAID_OUTRIGHT = {one.id: one for one in (COMMON_PRACTICE, FROM_MEMORY)}


@dataclass(frozen=True, slots=True)
class Citation:
    """A paragraph of a source, with what is to be said of it, such as for whom it is."""

    source: Source
    at: str = ""
    note: str = ""

    @property
    def reading(self) -> Reading | None:
        """What was read of the paragraph itself, else of a summary; None where nothing was."""
        covering = [one for one in self.source.read if one.covers(self.at)]
        return min(covering, key=lambda one: READINGS.index(one.what), default=None)

    @property
    def is_unread(self) -> bool:
        """Was the text itself not read, though there is one?"""
        reading = self.reading
        return self.source is not COMMON_PRACTICE and (reading is None or reading.what == SUMMARY)

    @property
    def named(self) -> str:
        """The source with the paragraph: "49 CFR 393.75(b)"."""
        return self.source.cited.replace(_PLACE, self.at)

    @property
    def text(self) -> str:
        """The same with what is said of it, and how far it was read where that was not the text itself."""
        reading, named = self.reading, str(self.named)
        if self.source is COMMON_PRACTICE:
            return say("common practice {note}", note=self.note) if self.note else named
        if self.source is FROM_MEMORY:
            return str(self.note) or named
        if reading is None:
            named = say("{source} (from memory)", source=named)
        elif reading.what == SUMMARY:
            named = say("{source} (from a summary by {summarizer})", source=named, summarizer=reading.by)
        return f"{named}, {self.note}" if self.note else named


@dataclass(frozen=True, slots=True)
class Said:
    """What a rule is called and what stands behind it, in words."""

    kind: str
    source: str


@dataclass(frozen=True)
class Cited:
    """All that stands behind a rule; `home` is the country whose law counts where no state is named."""

    kind: str
    citations: tuple[Citation, ...] = ()
    home: str = ""
    _told: dict[str, Said] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def generally(self) -> Said:
        """What it is called where nobody says which state it is about."""
        return self._tell(self.home, _ELSEWHERE)

    @cached_property
    def depends_on_place(self) -> bool:
        """Is some of it law in one place and not in another?"""
        return any(one.source.kind == LAW and one.source.law_in for one in self.citations)

    @property
    def is_unread(self) -> bool:
        """Was nothing of what gives the rule its kind read in its own text?"""
        bearing = [one for one in self.citations if one.source.kind == self.kind] or list(self.citations)
        return self.kind == MEMORY or all(one.is_unread for one in bearing)

    def said_in(self, place: str | None) -> Said:
        """What it is called in a country or state: law is called law only where it holds."""
        if not place or not self.depends_on_place:
            return self.generally
        said = self._told.get(place)
        if said is None:
            said = self._tell(place, _HERE)
            if len(self._told) < _MOST_TOLD:
                self._told[place] = said
        return said

    def _tell(self, place: str, where: Mapping[str, str]) -> Said:
        laws = [one for one in self.citations if one.source.kind == LAW]
        here = [one for one in laws if one.source.is_law_in(place)]
        away = [one for one in laws if one not in here]
        is_law = any(one.reading is not None for one in here)
        others = [one for one in self.citations if one.source.kind != LAW]
        if self.kind == LAW and not is_law:
            kind = min((one.source.kind for one in others), key=SOURCE_KINDS.index, default=PRACTICE)
            published = [one for one in others if one.source is not COMMON_PRACTICE]
            sources = [*away, *here, *published]
            return Said(kind, Composed(lambda: say(where[kind], places=_places(away), sources=_texts(sources))))
        if [one.source for one in self.citations] == [COMMON_PRACTICE]:
            alone = (_NOBODY_ELSE, others[0].note)
            return Said(self.kind, Composed(lambda: "; ".join(map(str, filter(None, alone)))))
        first = [*here, *others] if self.kind == LAW else [*others, *here]

        def told() -> str:
            law_away = say(LAW_AWAY, places=_places(away), sources=_texts(away)) if away else ""
            return "; ".join(filter(None, (_texts(first), law_away)))

        return Said(self.kind, Composed(told))


def _texts(citations: Iterable[Citation]) -> str:
    return "; ".join(one.text for one in citations)


def _places(citations: Iterable[Citation]) -> str:
    return all_of(dict.fromkeys(one.source.place for one in citations))


@dataclass(frozen=True)
class Library:
    """The sources that a country's rules may cite. `home`: the country whose law counts where no state is named."""

    sources: Mapping[str, Source] = field(default_factory=dict)
    home: str = ""

    @cached_property
    def places(self) -> Mapping[str, str]:
        """The names of the countries and states whose laws are cited, by what a case calls them."""
        return {one.law_in: one.place for one in self.sources.values() if one.law_in}

    def cited(self, table: Mapping[str, object], place: reading.Place, kinds: Sequence[str]) -> Cited:
        """What stands behind the rule of a table: its `kind` and `cites`. Refuses a kind that nothing cited gives."""
        kind = place.word(table, "kind", kinds)
        entries = table.get("cites")
        if not isinstance(entries, list) or not entries:
            place.refuse("cites", f'{shown(entries)} is not accepted; give [{{source = "...", at = "..."}}]')
        cited = Cited(kind, tuple(self._citation(entry, place) for entry in entries), self.home)
        if kind == LAW and not any(self._makes_law(one) for one in cited.citations):
            place.refuse("kind", '"law" is not accepted; no law of this country that was read is cited')
        if kind in (STANDARD, GUIDANCE, PRACTICE) and all(one.source.kind != kind for one in cited.citations):
            place.refuse("kind", f'{shown(kind)} is not accepted; cite a source of kind "{kind}"')
        return cited

    def _makes_law(self, citation: Citation) -> bool:
        """Was it read, and does it hold in this country or in a state of it?"""
        source = citation.source
        in_state = bool(self.home) and source.kind == LAW and source.law_in.startswith(f"{self.home}-")
        return citation.reading is not None and (in_state or source.is_law_in(self.home))

    def _citation(self, entry: object, place: reading.Place) -> Citation:
        if isinstance(entry, str):
            entry = {"source": entry}
        if not isinstance(entry, Mapping):
            place.refuse("cites", f'{shown(entry)} is not accepted; give {{source = "...", at = "..."}}')
        place.keys(entry, frozenset({"source", "at", "note"}))
        source = {**SAID_OUTRIGHT, **self.sources}[place.word(entry, "source", {**SAID_OUTRIGHT, **self.sources})]
        at = place.text(entry, "at", default="")
        if bool(at) != source.has_paragraphs:
            wanted = "name the paragraph" if source.has_paragraphs else "it is cited as a whole"
            place.refuse(
                "at",
                f'{shown(at or None)} is not accepted for "{source.id}"; {wanted}',
            )
        return Citation(source, at, saying(place.text(entry, "note", default="")))
