"""What a family drafts with: one draw in progress, and the assembling of an item from a key and its computed rivals."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from typing import Unpack

from assessments.questions.drafts.balance import balanced_by_value, rivals_beside
from assessments.questions.drafts.choice import Choice, lettered, merged
from assessments.questions.drafts.family import Family
from assessments.questions.drafts.foretelling import Foretelling
from assessments.questions.drafts.rules import NoSuchLimit, Rules
from assessments.questions.drafts.seeding import DrawRandom, Redraw, key_place, seeded
from assessments.questions.drafts.setting import Answers, Drawn, Setting
from assessments.questions.drafts.telling import Telling
from assessments.questions.drafts.template import template_of
from assessments.questions.items.claims import Asked, Turning
from assessments.questions.items.explanation import clause_line, ruling_line
from assessments.questions.items.figures import Photo, Picture
from assessments.questions.items.item import Item, Option
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.wordings import wordings
from training.rulebook import Edition, OneCase, OnShelf, quantity
from training.trade.measures import as_read
from training.trade.speech import hearing

_PATIENCE = 120  # tries for a key of the drawn rank by length


class Draft(Rules, Telling, Foretelling):
    """One draw in progress. Families use `rng`, `edition`, `prefer`, `casings` and the methods; they read no clock.

    `casings` are those of its family that were asked for. Raises NoSuchLimit where that leaves none. `photographs` are
    those of the shop that may be shown. `only_foretells`: it is drawn for what its family foretells, and ends there.
    """

    def __init__(
        self,
        family: Family,
        *,
        seed: str,
        edition: Edition,
        prefer: str,
        units: Sequence[OnShelf] | None,
        casings: Collection[str] | None = None,
        photographs: Sequence[Photo] = (),
        only_foretells: bool = False,
    ) -> None:
        if not family.asks_about(casings):
            raise NoSuchLimit(f'family "{family.name}": it does not ask about {" or ".join(casings or ())}')
        self.casings = tuple(casing for casing in family.casings if casings is None or casing in casings)
        self.family, self.seed, self.edition, self.prefer, self.units = family, seed, edition, prefer, units
        self.one_case, self.cases = OneCase(), {}
        self.photographs, self.only_foretells = photographs, only_foretells
        self.rng = seeded(family.name, seed, edition.name, edition.version, prefer)
        self._length_rank, self._misses, self._tries = self.rng.random(), 0, 0
        self._heard: dict[str, str] = {}

    def build(self) -> Item:
        """The next try at an item. Raises Redraw where it comes to none."""
        self._tries += 1
        with hearing() as self._heard:
            return self.family.build(self)

    def steady(self, about: str) -> DrawRandom:
        """A generator that begins alike in every try of a draw: what it chooses comes out as often as it is meant to,
        however easily the rest comes out. After some tries in vain it begins anew each time."""
        tried = str(max(0, self._tries - _PATIENCE // 2))
        return seeded(about, tried, self.family.name, self.seed, self.edition.name, self.edition.version, self.prefer)

    def one(
        self,
        *,
        stem: Sequence[str],
        key: Choice,
        wrong: Iterable[Choice],
        count: int = 4,
        is_even: bool = False,
        **around: Unpack[Setting],
    ) -> Item:
        """An item with one right option among `count`, or among three where the rivals allow no more.

        Rivals that say the same are merged with all their misconceptions, those equal to the key fall out. Which rivals
        stay, and in which words, is drawn so that the key's rank by length, and by value if any, leans to no end.
        `is_even`: the same answers are offered whichever is right, and each is right as often; then every one is put
        into any of its words, since a rank by length that fits the key would tell it from one that is long by nature.
        """
        rivals = merged(key, wrong)
        if len(rivals) < min(count, 3) - 1:
            raise Redraw(f"{self.family.name}: too few different options")
        places = min(count - 1, len(rivals))
        if key.value is not None:
            rivals = balanced_by_value(self.rng, key, rivals, places)
        key, *others = self._in_any_words(key, rivals, places) if is_even else self._worded(key, rivals, places)
        if len({key.text, *(choice.text for choice in others)}) <= len(others):
            raise Redraw(f"{self.family.name}: two options read alike")
        chosen = self.rng.sample(others, len(others))
        chosen.insert(key_place(self.family.name, self.seed, len(others) + 1) - 1, key)
        ids = {choice.text: str(place) for place, choice in enumerate(chosen, 1)}
        answers: Answers = {
            "options": tuple(Option(ids[choice.text], choice.text, choice.claim) for choice in chosen),
            "key": ids[key.text],
            "distractors": {ids[choice.text]: choice.why for choice in chosen if choice is not key},
            "unsafe": tuple(ids[choice.text] for choice in chosen if choice is not key and choice.lets_go(key)),
            "routes": {
                ids[choice.text]: choice.routes
                for choice in chosen
                if choice is not key and max(map(len, choice.routes), default=0) > 1
            },
        }
        return self.assemble("one", stem, answers, around)

    def several(
        self,
        *,
        stem: Sequence[str],
        right: Sequence[Choice],
        wrong: Sequence[Choice],
        is_listed: bool = False,
        **around: Unpack[Setting],
    ) -> Item:
        """An item with all of `right` and `wrong` on offer; the key is every right one.

        `is_listed`: the stem lists them by letters before it asks, and the letters are offered, so that nothing offered
        tells what is right.
        """
        offered = [*right, *wrong]
        if not right or len({choice.text for choice in offered}) < len(offered):
            raise Redraw(f"{self.family.name}: no right option, or two alike")
        self.rng.shuffle(offered)
        is_right = [choice in right for choice in offered]
        if is_listed:
            offered, listed = lettered(offered)
            stem = [*stem[:-1], *listed, stem[-1]]
        rights = {choice.text for choice, own in zip(offered, is_right, strict=True) if own}
        ids = {choice.text: str(place) for place, choice in enumerate(offered, 1)}
        answers: Answers = {
            "options": tuple(Option(ids[choice.text], choice.text, choice.claim) for choice in offered),
            "key": tuple(ids[choice.text] for choice in offered if choice.text in rights),
            "distractors": {ids[choice.text]: choice.why for choice in offered if choice.text not in rights},
            "omissions": {ids[choice.text]: choice.why for choice in offered if choice.text in rights and choice.why},
            "unsafe": tuple(ids[c.text] for c in offered if c.text not in rights and c.lets_go()),
        }
        return self.assemble("several", stem, answers, around)

    def number(
        self,
        *,
        stem: Sequence[str],
        key: str,
        tolerance: str,
        units: Sequence[str],
        wrong: Iterable[tuple[str, str]],
        unsafe: Sequence[str] = (),
        **around: Unpack[Setting],
    ) -> Item:
        """An item answered with a number. `wrong` pairs a quantity with the misconception that computes it.

        A wrong quantity within the tolerance of the key is none. Where it asks at what value a decision turns, what
        is far beyond it is unsafe, which `unsafe` need not say.
        """
        value = parse_measure(key)[1]
        margin = parse_measure(tolerance)[1]
        distractors: dict[str, tuple[str, ...]] = {}
        for text, why in wrong:
            if abs(parse_measure(text)[1] - value) > margin:
                distractors[text] = (*distractors.get(text, ()), why)
        answers: Answers = {
            "options": (),
            "key": key,
            "tolerance": tolerance,
            "units": tuple(units),
            "distractors": distractors,
            "unsafe": (*_beyond(around.get("asks"), key, tolerance), *unsafe),
        }
        return self.assemble("number", stem, answers, around)

    def _worded(self, key: Choice, rivals: Sequence[Choice], places: int) -> list[Choice]:
        """The key and `places` rivals in words that give it the rank by length which this draw was to have.

        The rank stays the same over all tries of a draw, else those that come out easily would come out more often.
        After some tries in vain any rank will do.
        """
        ranks = [int(self._length_rank * (places + 1))]
        if self._misses >= _PATIENCE:
            ranks += self.rng.sample(range(places + 1), places + 1)
        for shorter in ranks:
            found = rivals_beside(self.rng, key.text, [rival.text for rival in rivals], places=places, shorter=shorter)
            if found is not None:
                text, said = found
                return [replace(key, text=text), *(replace(rivals[place], text=words) for place, words in said)]
        self._misses += 1
        raise Redraw(f"{self.family.name}: the length of the key would stand out")

    def _in_any_words(self, key: Choice, rivals: Sequence[Choice], places: int) -> list[Choice]:
        """The key and `places` rivals, each in any of its wordings."""
        found = []
        for choice in (key, *self.rng.sample(list(rivals), places)):
            said = wordings(choice.text)
            found.append(replace(choice, text=said[int(self.rng.random() * len(said))]))
        return found

    def assemble(self, form: str, stem: Sequence[str], answers: Answers, around: Setting) -> Item:
        """The item from its answers and what surrounds them, all its text as the language spoken has it."""
        lines = tuple(
            {name: str(value) if isinstance(value, str) else value for name, value in line.items()}
            for line in (
                *(ruling_line(ruling, self.edition) for ruling in around.get("rulings", ())),
                *(clause_line(self.clause(name)) for name in around.get("clauses", ())),
                *around.get("explanation", ()),
            )
        )
        drawn, case = around.get("figure"), around.get("case")
        figure = None if drawn is None else drawn()
        return Item(
            family=self.family.name,
            skill=self.family.skill,
            edition=self.edition.name,
            version=self.edition.version,
            seed=self.seed,
            format=form,
            stem=as_read("\n".join(map(str, stem))),
            figure=_shown(figure),
            options=answers["options"],
            key=answers["key"],
            tolerance=answers.get("tolerance"),
            units=answers.get("units", ()),
            distractors=answers["distractors"],
            unsafe=answers["unsafe"],
            explanation=lines,
            sources=tuple(dict.fromkeys(str(line["source"]) for line in lines)),
            case=None if case is None else case.to_json(),
            lesson=self.family.lesson,
            features=dict(around.get("features", {})),
            omissions=answers.get("omissions", {}),
            reasons=answers.get("reasons", ()),
            frame=answers.get("frame"),
            before=answers.get("before", ()),
            routes=answers.get("routes", {}),
            asks=around.get("asks"),
            template=template_of(stem[-1], self._heard),
        )


def _shown(figure: Drawn | None) -> Picture | None:
    """A drawing, or pictures, of which none is computed here."""
    if figure is None or isinstance(figure, Picture):
        return figure
    return Picture(str(figure.svg), str(figure.description))


def _beyond(asks: Asked | None, key: str, tolerance: str) -> tuple[str, ...]:
    """The answers far beyond the key, where it is a value at which a decision turns: by more than twice its tolerance.

    Who is a hair beyond it has read or reckoned wrongly, and takes no limit for another one.
    """
    if not isinstance(asks, Turning):
        return ()
    unit = key.rpartition(" ")[2]
    end, margin = (parse_measure(text)[1] / parse_measure(f"1 {unit}")[1] for text in (key, tolerance))
    if asks.end == "most":
        return (f"above {quantity(end + 2 * margin, unit).text}",)
    return (f"below {quantity(end - 2 * margin, unit).text}",)
