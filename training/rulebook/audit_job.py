"""Reading a job: the case and the log of its repair; every problem names the field, the value and what is accepted."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from training.rulebook.audit_words import INJURY, NOTE, STEP_PARAMETERS, TOOL, plain, tools_of, word_for
from training.rulebook.case import Case, CaseError
from training.rulebook.edition import Edition
from training.rulebook.fields import Problems, a_list, known_keys, lean, not_among, not_negative, positive, shown
from training.rulebook.measures import MEASURES, Found, Measure, a_word
from training.rulebook.quantities import Quantity, parse_quantity
from training.rulebook.reading import edition_name, parse_case
from training.rulebook.registry import default_edition, edition_names, load_edition
from training.trade.lists import one_of
from training.trade.reading import printable
from training.trade.speech import say

_JOB = frozenset({"edition", "case", "steps"})
_LONGEST_NOTE = 400
_MOST_TIMES = 1000
_WHOLE = 100
_PASSES = "job.passes_each_way"
_SIGNED = frozenset({"temperature"})
_SHARES = frozenset({"job.humidity"})  # parts of a whole
_ABOVE_ZERO = frozenset({"job.size_found", "job.size_prepared", "job.sidewall_max", "job.torque_specified"})


class JobError(ValueError):
    """The input is not a job. `problems` has one line a problem."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


@dataclass(frozen=True, slots=True)
class LoggedStep:
    """One line of the log. `number` counts from 1; `stated` is what it says of each quantity of the work."""

    number: int
    name: str
    stated: Mapping[str, Found] = field(default_factory=dict)
    injury: str | None = None


@dataclass(frozen=True, slots=True)
class Job:
    """A repair as it was done: the tire as found, and the steps in the order of the log."""

    edition: Edition
    case: Case
    steps: tuple[LoggedStep, ...]


def parse_job(data: object, *, edition: Edition | None = None) -> Job:
    """Read a job from JSON data: {"edition", "case", "steps"}; `edition` stands for the one that the job names.

    Raises JobError with all problems, one line each.

    >>> parse_job({"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "deflate"}]}).steps[0].name
    'deflate'
    """
    problems: Problems = []
    if not isinstance(data, Mapping):
        raise JobError(
            (
                say(
                    "job: {given} is not a job; give an object with {choices}",
                    given=shown(data),
                    choices=one_of(tuple(sorted(_JOB))),
                ),
            )
        )
    known_keys(data, _JOB, "", problems)
    named = _edition_name(data, problems)
    case = _case(data.get("case"), named, problems)
    edition = edition or load_edition(named, on=case.on if case else None)
    steps = _steps(data.get("steps"), edition, case, problems)
    if problems or case is None:
        raise JobError(tuple(problems))
    return Job(edition, case, steps)


def _edition_name(data: Mapping[str, object], problems: Problems) -> str:
    given, inner = data.get("edition"), data.get("case")
    of_case = inner.get("edition") if isinstance(inner, Mapping) else None
    if given is None:
        return of_case if isinstance(of_case, str) and of_case in edition_names() else default_edition()
    name = edition_name(given, "edition", problems)
    if name is not None and of_case is not None and of_case != given:
        problems.append(
            say(
                "case.edition: {of_case} is not the job's edition {given}; give one of them",
                of_case=shown(of_case),
                given=shown(given),
            )
        )
    return name or default_edition()


def _case(data: object, edition: str, problems: Problems) -> Case | None:
    if data is None:
        problems.append(
            say("case: missing; give the tire as found, with at least {example}", example='{"tire": {"casing": ...}}')
        )
        return None
    if not isinstance(data, Mapping):
        problems.append(
            say(
                'case: {given} is not a case; give an object with at least {{"tire": {{"casing": ...}}}}',
                given=shown(data),
            )
        )
        return None
    try:
        return parse_case({"edition": edition, **data})
    except CaseError as refused:
        problems += [line if line.startswith("case:") else f"case.{line}" for line in refused.problems]
        return None


def _steps(data: object, edition: Edition, case: Case | None, problems: Problems) -> tuple[LoggedStep, ...]:
    if data is None:
        problems.append(say("steps: missing; give a list of steps such as {example}", example='[{"step": "deflate"}]'))
        return ()
    listed = a_list(data, "steps", say('a list of steps such as [{"step": "deflate"}]'), problems) or ()
    named = edition if edition.procedure else load_edition(default_edition())
    injuries = None if case is None else tuple(injury.id for injury in case.injuries or ())
    reader = _Reader(named, injuries, problems)
    return tuple(step for place, entry in enumerate(listed) if (step := reader.step(entry, place)) is not None)


class _Reader:
    """Reads the steps of one log."""

    def __init__(self, edition: Edition, injuries: tuple[str, ...] | None, problems: Problems) -> None:
        self.names = tuple(step.id for step in edition.procedure)
        self.tools = tools_of(edition)
        self.plain_tools = frozenset(map(plain, self.tools))
        self.injuries, self.problems = injuries, problems

    def step(self, entry: object, place: int) -> LoggedStep | None:
        """One entry, or None with the problem noted."""
        path = f"steps[{place}]"
        if not isinstance(entry, Mapping):
            self.problems.append(
                say(
                    '{path}: {given} is not a step; give an object such as {{"step": "deflate"}}',
                    path=path,
                    given=shown(entry),
                )
            )
            return None
        name = entry.get("step")
        if not isinstance(name, str) or name not in self.names:
            what = "missing" if name is None else say("{name} is not a step", name=shown(name))
            self.problems.append(
                say("{path}.step: {problem}; choose {choices}", path=path, problem=what, choices=one_of(self.names))
            )
            return None
        quantities = STEP_PARAMETERS.get(name, {})
        known_keys(entry, frozenset({"step", TOOL, INJURY, NOTE, *quantities}), path, self.problems)
        stated = {}
        for key, quantity in quantities.items():
            found = self._stated(entry.get(key), MEASURES[quantity], f"{path}.{key}")
            if found is not None:
                stated[quantity] = found
        if TOOL not in quantities:
            self._any_tool(entry.get(TOOL), f"{path}.{TOOL}")
        self._note(entry.get(NOTE), f"{path}.{NOTE}")
        return LoggedStep(place + 1, name, stated, self._injury(entry.get(INJURY), f"{path}.{INJURY}"))

    def _stated(self, value: object, measure: Measure, path: str) -> Found | None:
        if value is None:
            return None
        if not measure.dimension:
            word = word_for(measure.name, value) if isinstance(value, str) else None
            if word is None:
                self.problems.append(not_among(value, path, measure.words))
                return None
            return a_word(word)
        quantity = self._quantity(value, measure, path)
        return None if quantity is None else Found(quantity.text, quantity)

    def _quantity(self, value: object, measure: Measure, path: str) -> Quantity | None:
        dimension = measure.dimension
        if dimension == "count":
            return self._count(value, path, "passes" if measure.name == _PASSES else "times")
        if dimension == "angle":
            return lean(value, path, self.problems)
        if measure.name in _ABOVE_ZERO:
            return positive(dimension)(value, path, self.problems)
        if dimension not in _SIGNED:
            found = not_negative(dimension)(value, path, self.problems)
            if found is not None and measure.name in _SHARES and found.value > _WHOLE:
                self.problems.append(say('{path}: "{found}" is above 100 %; give 0 % to 100 %', path=path, found=found))
            return found
        try:
            return parse_quantity(value, dimension)
        except ValueError as refused:
            self.problems.append(f"{path}: {refused}")
            return None

    def _count(self, value: object, path: str, unit: str) -> Quantity | None:
        # A count has no unit to get wrong, so a bare whole number is clear.
        text = f"{value} {unit}" if type(value) is int and abs(value) <= _MOST_TIMES else value
        try:
            counted = parse_quantity(text, "count")
        except ValueError:
            counted = None
        if counted is None or not 0 <= counted.value <= _MOST_TIMES or counted.value.denominator != 1:
            wanted = say(
                'give a whole number from 0 to {most}, for example 3 or "3 {unit}"',
                most=_MOST_TIMES,
                unit=unit,
            )
            self.problems.append(
                say("{path}: {given} is not a count; {wanted}", path=path, given=shown(value), wanted=wanted)
            )
            return None
        return counted

    def _any_tool(self, value: object, path: str) -> None:
        if value is not None and not (isinstance(value, str) and plain(value) in self.plain_tools):
            self.problems.append(
                say(
                    "{path}: {given} is not a tool; choose {choices}",
                    path=path,
                    given=shown(value),
                    choices=one_of(self.tools),
                )
            )

    def _note(self, value: object, path: str) -> None:
        if value is not None and not (isinstance(value, str) and len(value) <= _LONGEST_NOTE):
            self.problems.append(
                say(
                    "{path}: {given} is not a note; give a text of at most {most} characters",
                    path=path,
                    given=shown(value),
                    most=_LONGEST_NOTE,
                )
            )

    def _injury(self, value: object, path: str) -> str | None:
        if value is None or self.injuries is None:
            return None
        if isinstance(value, str) and value in self.injuries:
            return value
        known = (
            say("choose {choices}", choices=one_of(self.injuries)) if self.injuries else say("the case names no injury")
        )
        self.problems.append(
            say(
                "{path}: {given} is not an injury of the case; {known}",
                path=path,
                given=printable(shown(value)),
                known=known,
            )
        )
        return None
