"""How Check a tire is laid out: its groups in the order of the work, and the part in which each stands."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from django.forms import BoundField

from training.forms.fields import Targets
from training.forms.tire_fields import finding_names, findings_by_place
from training.forms.tire_parts import (
    FIRST,
    HOLE,
    INJURY,
    INJURY_ROWS,
    INSIDE,
    LOOKED,
    OF_THE_CROWN,
    OF_THE_HOLE,
    OUTSIDE,
    POSITION,
    REPAIR,
    REPAIR_ROWS,
    TIRE,
    TIRE_PART,
    finding_name,
    lean_name,
    section_name,
)
from training.trade.speech import say


@dataclass(frozen=True)
class Section:
    """A group of fields on the page. `is_folded` sections open on a press, and stand open when something is in them.

    `pressed` remembers what one press said of a group of findings; `by_press` are the fields that still say so.
    """

    slug: str
    title: str
    fields: tuple[BoundField, ...]
    part: str
    is_folded: bool = False
    pressed: BoundField | None = None
    by_press: tuple[str, ...] = ()

    @property
    def looked_at(self) -> int:
        """How many of its fields say something."""
        return sum(bool(field.data) for field in self.fields if field.form.is_bound)

    @property
    def is_untouched(self) -> bool:
        """Whether none of its fields says anything yet, so that one press can speak for all."""
        return not self.looked_at

    @property
    def can_be_emptied(self) -> bool:
        """Whether something is chosen here that no press said."""
        chosen = [field for field in self.fields if isinstance(field.field.widget, Targets) and field.name != "purpose"]
        return not self.by_press and any(field.data for field in chosen if field.form.is_bound)

    @property
    def asks_findings(self) -> bool:
        """Are these findings, of which one press can say that none was found?"""
        return all(field.name in finding_names() for field in self.fields)

    @property
    def told(self) -> tuple[str, ...]:
        """What was found here or is in doubt, so that a folded group does not hide it."""
        given = [field for field in self.fields if self.asks_findings and field.form.is_bound]
        return tuple(
            say("{finding}: {answer}", finding=field.label, answer=dict(LOOKED)[str(field.data)])
            for field in given
            if field.data in ("yes", "doubt")
        )

    @property
    def names_itself(self) -> bool:
        """Whether its rows need no head: there is one alone, or the page says the same."""
        is_said_above = self.part == TIRE_PART or (self.part == HOLE and not self.is_folded)
        return (len(self.fields) == 1 or is_said_above) and not self.asks_findings

    @property
    def rows(self) -> tuple[tuple[BoundField, ...], ...]:
        """Its fields, those that share a row together: an angle and which way it leans."""
        rows: list[tuple[BoundField, ...]] = []
        for field in self.fields:
            before = rows[-1][-1] if rows else None
            leans = before is not None and lean_name(before.name.removesuffix("_angle")[len("injury_") :]) == field.name
            if before is not None and leans and not before.errors and not field.errors:
                rows[-1] = (before, field)
            else:
                rows.append((field,))
        return tuple(rows)

    @property
    def is_open(self) -> bool:
        given = (field.errors or field.data for field in self.fields if field.form.is_bound and field.name != "on")
        return not self.is_folded or any(given)


@dataclass(frozen=True)
class Layout:
    """What the groups are made from.

    `bound` gives the fields that are asked for of those named, `pressed` the field that remembers the press of a group,
    `by_press` the findings that it spoke for.
    """

    bound: Callable[[Iterable[str]], tuple[BoundField, ...]]
    pressed: Callable[[str], BoundField]
    by_press: Callable[[str], tuple[str, ...]]
    is_for_use: bool
    is_for_repair: bool

    def sections(self) -> Iterator[Section]:
        """All groups, in the order of the work; one that asks for nothing has no fields."""
        yield Section("tire", say("The tire"), self.bound(FIRST), TIRE_PART)
        yield from self._sections_of_holes()
        places = list(findings_by_place())
        yield self._findings(*places[0], INSIDE)
        for place, row in enumerate(REPAIR_ROWS):
            names = [f"repair_{row}_{part.name}" for part in REPAIR]
            if place == 0:
                yield Section("repairs", say("Earlier repairs"), self.bound(("repairs",)), INSIDE)
            title = say("Earlier repair {row}", row=row)
            yield Section(f"repair-{row}", title, self.bound(names), INSIDE, is_folded=True)
        for title, slugs in places[1:]:
            yield self._findings(title, slugs, OUTSIDE)
            if "excessive-wear" in slugs:
                yield Section("depths", say("Tread depth"), self.bound(("depths_1",)), OUTSIDE)
        beside = self.bound(("depths_2",))
        yield Section("depths-beside", say("Tread depth beside it"), beside, OUTSIDE, is_folded=True)
        above = (*FIRST, *OF_THE_CROWN)
        rest = [part.name for part in TIRE if part.name not in above]
        yield Section("sidewall", say("On the sidewall"), self.bound(rest), OUTSIDE, is_folded=True)
        use = self.bound(part.name for part in POSITION)
        yield Section("use", say("Vehicle, wheel and pressure"), use, OUTSIDE, is_folded=not self.is_for_use)
        yield Section("rest", say("Proposal and day"), self.bound(("proposed", "on")), OUTSIDE, is_folded=True)

    def _sections_of_holes(self) -> Iterator[Section]:
        """The first hole with what its place is measured from; what few holes need, and further ones, folded."""
        for place, row in enumerate(INJURY_ROWS):
            names = [f"injury_{row}_{part.name}" for part in INJURY]
            if place:
                title = say("Injury {row}", row=row)
                yield Section(f"injury-{row}", title, self.bound((*names, lean_name(row))), HOLE, is_folded=True)
                continue
            first = [f"injury_{row}_{name}" for name in OF_THE_HOLE]
            rest = [name for name in names if name not in first]
            main = self.bound((*first, lean_name(row), *OF_THE_CROWN))
            yield Section(f"injury-{row}", say("Injury {row}", row=row), main, HOLE)
            none = self.bound(("injuries",))
            yield Section("injuries", say("Injuries"), none, HOLE, is_folded=self.is_for_repair)
            more = say("More of injury {row}", row=row)
            yield Section(f"injury-{row}-more", more, self.bound(rest), HOLE, is_folded=True)

    def _findings(self, title: str, slugs: tuple[str, ...], part: str) -> Section:
        slug = section_name(title)
        fields = self.bound(finding_name(name) for name in slugs)
        return Section(slug, title, fields, part, pressed=self.pressed(slug), by_press=self.by_press(slug))
