"""The pieces of a lesson page: limit cards, drawings, tables of findings, job cards and boxes, as HTML."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from html import escape
from math import atan, degrees

from training.course.lessons import Block, CourseError, only_known
from training.course.loader import modules
from training.course.movable import Movable
from training.course.prose import table, to_html, words
from training.course.texts import spoken
from training.drawings import ILLUSTRATIONS, Figure, illustration
from training.pictures import Photographed
from training.rulebook import (
    FINDINGS,
    WORDS,
    Clause,
    Edition,
    RulebookError,
    Step,
    UnknownClause,
    crown_text,
    default_edition,
    edition_names,
    edition_title,
    load_edition,
    procedure,
    to_rely_on,
    unreadable_edition,
)
from training.trade.days import written_day
from training.trade.speech import say, saying
from training.trade.words import METHOD_WORDS, capital, uncapital

CAPTIONS: Mapping[str, str] = {
    "reject": saying("Findings that take a tire out of service"),
    "inspect": saying("Findings that send you back inside"),
    "advise": saying("Findings to tell the customer"),
}
FINDING = "finding."
# What follows from a limit that is not kept, as it stands behind the name of a finding.
CONSEQUENCES: Mapping[str, str] = {
    "accept": saying("accept"), "advise": saying("advise"), "repair": saying("repair"), "inspect": saying("inspect"),
    "refer": saying("refer"), "reject": saying("reject"),
}  # fmt: skip
# The tables of findings are those of a tire that is wanted for repair; a lesson about no casing in particular is
# written with these in hand.
PURPOSE = "repair"
_PARTS_OF_THICKNESS: Mapping[str, str] = {"1/2": saying("half the thickness"), "1": saying("the whole thickness")}
CASING = ("passenger", "light-truck-fabric")
# The fold at the end of a lesson that says who says so.
SOURCES = "sources"
# Drawings that show the crown as ending at the outermost groove.
BY_GROOVE = ("where-it-may-be", "exit-outside")


class Unreadable(CourseError):
    """A limit of another rulebook that cannot be read now: the lesson says so, and goes on."""


@dataclass(slots=True)
class Page:
    """What a lesson has printed so far: `clauses` in order, `carded` those that stand on a card or in a table,
    `outcomes` what its worked examples came to, and what its tables of markings say, `tables` these tables with their
    sources.

    `elsewhere` holds limits of another rulebook by the name the lesson gives them: one that the lesson asks for by
    edition, "united-kingdom/tread-depth-motorcycle", or one that this edition lacks and the one the lessons were
    written by has. The page says whose they are. `photographs` are those of the shop, the newest first.
    `movable` is what a reader moves on it, and its HTML; on one that `is_still` nothing is moved.
    """

    edition: Edition
    prefer: str
    casings: tuple[str, ...] = CASING
    photographs: tuple[Photographed, ...] = ()
    clauses: list[str] = field(default_factory=list)
    elsewhere: dict[str, tuple[Clause, Edition]] = field(default_factory=dict)
    carded: set[str] = field(default_factory=set)
    outcomes: list[str] = field(default_factory=list)
    tables: list[tuple[str, str]] = field(default_factory=list)
    boxes: int = 0
    movable: tuple[Movable, str] | None = None
    is_still: bool = False

    def clause(self, name: str) -> Clause:
        """The clause, noted as printed. Raises CourseError for one the edition does not have."""
        try:
            found = self.edition.clause(name)
        except UnknownClause as error:
            raise CourseError(str(error)) from error
        if name not in self.clauses:
            self.clauses.append(name)
        return found

    def limit(self, name: str) -> tuple[Clause, Edition | None]:
        """The clause a lesson names, and the edition when it is another rulebook's. Raises CourseError."""
        wanted, slash, own = name.rpartition("/")
        if wanted == self.edition.name:
            name, slash = own, ""
        home = _home()
        if slash or (name not in self.edition.clauses and home != self.edition.name):
            try:
                source = load_edition(wanted or home)
            except RulebookError as error:
                is_known = wanted in ("", *edition_names()) or unreadable_edition(wanted)
                raise (Unreadable if is_known else CourseError)(str(error)) from error
            if own in source.clauses:
                self.elsewhere.setdefault(name, (source.clauses[own], source))
                return self.elsewhere[name]
        return self.clause(name), None

    def anchor(self, name: str) -> str:
        """The id attribute that inline limits link to, given to the first card or row of a clause."""
        if name in self.carded:
            return ""
        self.carded.add(name)
        return f' id="{_anchor(name)}"'

    def facts(self) -> list[str]:
        """What the rulebook put on this page, for the content version."""
        printed = [self.edition.clause(name) for name in self.clauses]
        limits = [_fact(clause) for clause in printed]
        others = [f"{edition.name}|{_fact(clause)}" for clause, edition in self.elsewhere.values()]
        return [*limits, *others, *self.outcomes]

    def box_id(self, kind: str) -> str:
        """A fresh id for a box's heading."""
        self.boxes += 1
        return f"{kind}-{self.boxes}"

    def inline(self, kind: str, name: str) -> str:
        """HTML of an inline directive."""
        if kind == "lesson":
            titles = {lesson.slug: lesson.title for module in modules() for lesson in module.lessons}
            return f"<cite>{words(titles[name])}</cite>"
        try:
            clause, other = self.limit(name)
        except Unreadable:
            return words(_unread(name, is_sentence=False))
        whose = f" ({other.title})" if other else ""
        return f'<a class="limit" href="#{_anchor(self.key(name))}">{words(f"{value_of(clause)}{whose}")}</a>'

    def key(self, name: str) -> str:
        """The name without this edition's own in front of it."""
        return name.removeprefix(f"{self.edition.name}/")


def limit_card(block: Block, page: Page) -> str:
    """`::limit`: what the clause demands, why, and who says so."""
    try:
        clause, other = page.limit(block.argument)
    except Unreadable:
        return f'<aside class="notice"><p>{words(_unread(block.argument, is_sentence=True))}</p></aside>'
    title = f"{clause.title}, {other.title}" if other else str(clause.title)
    label = say("Limit: {title}", title=title)
    key = page.key(block.argument)
    link, short = say("Source: {title}", title=title), say("Source")
    silence = ""
    if other is not None and "/" not in block.argument:
        silence = f'<p class="limit-silence">{words(_silence(page))}</p>\n'
    return (
        f'<section class="limit-card"{page.anchor(key)} aria-label="{words(label)}">\n'
        f'<p class="limit-title">{words(title)}</p>\n'
        f'<p class="limit-value">{words(capital(value_of(clause)))}</p>\n'
        f'<p class="limit-because">{words(clause.because)} <a class="limit-source" href="#{_source_anchor(key)}" '
        f'aria-label="{words(link)}">{words(short)}</a></p>\n'
        f"{silence}</section>"
    )


def drawing(block: Block, page: Page) -> str:
    """`::figure`: one of the illustrations."""
    only_known("figure", [block.argument], ILLUSTRATIONS)
    crown = page.edition.crowns.get(page.casings[0])
    if block.argument in BY_GROOVE and crown is not None and crown.basis != "outer-groove":
        told = say(
            "There is a drawing here in rulebooks that end the repairable crown at the outermost groove. "
            "{rulebook} measures it otherwise: {crown}.",
            rulebook=page.edition.title,
            crown=crown_text(crown),
        )
        return f'<aside class="notice"><p>{words(told)}</p></aside>'
    return figure_html(illustration(block.argument, page.edition))


def figure_html(figure: Figure) -> str:
    """A drawing with the same information in words."""
    shows = say("What the drawing shows")
    return (
        f'<figure class="figure">\n{figure.svg}\n'
        f"<figcaption><details><summary>{words(shows)}</summary>"
        f"<p>{words(figure.description)}</p></details></figcaption>\n</figure>"
    )


def leans(block: Block, _: Page) -> str:
    """`::leans`: at which lean a hole comes out so much of the crown's thickness farther out, to the nearest degree.

    Source: plain trigonometry, thickness times the tangent of the lean.
    """
    only_known("part of the thickness", names := block.argument.split(), _PARTS_OF_THICKNESS)
    rows = "".join(
        f"<div><dt>{round(degrees(atan(Fraction(name))))}°</dt><dd>{words(_PARTS_OF_THICKNESS[name])}</dd></div>"
        for name in names
    )
    return f'<dl class="leans">{rows}</dl>'


def findings(block: Block, page: Page) -> str:
    """`::findings`: a table of what one may find, by consequence or by clause."""
    every = {name: clause for name, clause in page.edition.clauses.items() if clause.quantity.startswith(FINDING)}
    names = block.argument.split()
    if len(names) == 1 and names[0] in CAPTIONS:
        caption = CAPTIONS[names[0]]
        chosen = [clause for clause in every.values() if clause.otherwise == names[0] and _is_taught(clause, page)]
    else:
        caption = say("What may be found")
        only_known("finding", names, every)
        chosen = [every[name] for name in names]
    rows = []
    why = say("Why")
    for clause in chosen:
        page.clause(clause.id)
        rows.append(
            f'<tr{page.anchor(clause.id)}><th scope="row">{words(clause.title)}{_meaning(clause)}</th>'
            f'<td data-label="{words(why)}">{words(clause.because)}</td></tr>'
        )
    return table(caption, (say("What you find"), why), rows, is_stacked=True)


def job_card(block: Block, page: Page) -> str:
    """`::steps`: a job card, all steps of a method or the named ones."""
    method, _, wanted = block.argument.partition(":")
    only_known("method", [method.strip()], METHOD_WORDS)
    known = {step.id: step for step in procedure(page.edition, method=method.strip())}
    names = wanted.split() or list(known)
    only_known("step", names, known)
    items = "\n".join(_job_step(known[name], page) for name in names)
    label = say("Job card, {method}", method=METHOD_WORDS[method.strip()])
    return f'<section class="job-card" aria-label="{words(label)}">\n<ol>\n{items}\n</ol>\n</section>'


def text(block: Block, page: Page) -> str:
    """Plain Markdown."""
    return to_html(written(block), page.inline)


def written(block: Block) -> str:
    """The Markdown of a block in the language spoken."""
    return block.body if block.language else spoken(block.body)


def caution(block: Block, page: Page) -> str:
    """`::caution`: what can hurt."""
    danger = block.argument if block.language else say(block.argument)
    return _box(page, "caution", say("Caution: {danger}", danger=danger), block)


def stop(block: Block, page: Page) -> str:
    """`::stop`: what ends the work."""
    return _box(page, "stop-box", say("Stop here if"), block)


def self_check(block: Block, page: Page) -> str:
    """`::self-check`: questions for the hands."""
    return _box(page, "self-check", say("Before you go on"), block)


def sources_title() -> str:
    """The heading over who says so, in the language spoken."""
    return say("Where the limits come from")


def sources(page: Page) -> str:
    """Who says so, folded: the limits named without a card with what they are, then the sources of all others."""
    named = [(name, page.edition.clause(name), "") for name in page.clauses]
    named += [(name, clause, f" ({edition.title})") for name, (clause, edition) in page.elsewhere.items()]
    rows = []
    carded: dict[str, list[str]] = {}
    for name, clause, whose in named:
        title = f"{clause.title}{whose}"
        if name in page.carded:
            told = f"{words(provenance(clause))}{_other_statements(clause)}"
            carded.setdefault(told, []).append(f'<dt id="{_source_anchor(name)}">{words(title)}</dt>')
            continue
        told = CONSEQUENCES[clause.otherwise] if clause.quantity.startswith(FINDING) else clause.printed_limit()
        sentences = [clause.because, provenance(clause)]
        if clause.house is not None:
            sentences.append(_beside(clause))
        if whose and "/" not in name:
            sentences.append(_silence(page))
        rows.append(
            f'<div><dt id="{_anchor(name)}">{words(title)}: {words(told)}</dt>'
            f"<dd>{' '.join(words(sentence) for sentence in sentences)}</dd></div>"
        )
    rows += [f"<div>{''.join(titles)}<dd>{told}</dd></div>" for told, titles in carded.items()]
    rows += [f"<div><dt>{words(caption)}</dt><dd>{words(source)}.</dd></div>" for caption, source in page.tables]
    if not rows:
        return ""
    return (
        f'<details class="lesson-sources" id="{SOURCES}">\n<summary><h2>{words(sources_title())}</h2></summary>\n'
        f"<dl>\n{chr(10).join(rows)}\n</dl>\n</details>"
    )


def provenance(clause: Clause) -> str:
    """Kind, source, and when somebody last read it."""
    if clause.house is not None:
        return capital(say("{source}, stricter than the rulebook.", source=clause.house.source))
    source = clause.source.strip().rstrip(".")
    day = written_day(clause.checked_on)
    return say("{basis}. Checked on {day}.", basis=to_rely_on(clause.kind, source), day=day)


def _meaning(clause: Clause) -> str:
    """What a finding looks like, below its title."""
    meaning = WORDS["findings"].get(clause.quantity.removeprefix(FINDING))
    return f'<br><small class="secondary">{words(capital(meaning))}</small>' if meaning else ""


def value_of(clause: Clause) -> str:
    """The limit in words: what is accepted, or for a finding what follows from it."""
    if clause.quantity.startswith(FINDING):
        return f"{uncapital(clause.title)}: {CONSEQUENCES[clause.otherwise]}"
    return clause.printed_limit()


def _home() -> str:
    """The edition that the lessons were written for; empty while no header that can be read says so."""
    try:
        return default_edition()
    except RulebookError:
        return ""


def _unread(name: str, *, is_sentence: bool) -> str:
    """What stands for a limit of a rulebook that cannot be read, in a sentence or as one."""
    whose = name.rpartition("/")[0] or _home()
    if not whose and is_sentence:
        return say("A limit of the rulebook that the lessons were written for, which cannot be read now.")
    if not whose:
        return say("a limit of the rulebook that the lessons were written for, which cannot be read now")
    rulebook = edition_title(whose)
    if is_sentence:
        return say("A limit of the rulebook of {rulebook}, which cannot be read now.", rulebook=rulebook)
    return say("a limit of the rulebook of {rulebook}, which cannot be read now", rulebook=rulebook)


def _beside(clause: Clause) -> str:
    """What the rulebook itself says beside a house rule."""
    own = clause.of_edition
    basis = to_rely_on(own.kind, own.source)
    return say("The rulebook itself says {limit} ({basis}).", limit=own.printed, basis=basis)


def _anchor(name: str) -> str:
    return f"limit-{escape(name.replace('/', '-'))}"


def _source_anchor(name: str) -> str:
    return f"source-{escape(name.replace('/', '-'))}"


def _fact(clause: Clause) -> str:
    return f"{clause.id}|{clause.limit_text()}|{clause.otherwise}|{clause.because}"


def _silence(page: Page) -> str:
    return say("Not a rule of {rulebook}: read that rulebook, and ask, before you go on.", rulebook=page.edition.title)


def _is_taught(clause: Clause, page: Page) -> bool:
    """Is this a finding of its own, on a tire of this lesson that is wanted for repair?"""
    named = clause.quantity.removeprefix(FINDING) in FINDINGS
    return named and PURPOSE in clause.purposes and bool(set(page.casings) & set(clause.casings))


def _other_statements(clause: Clause) -> str:
    told = [statement for statement in clause.statements if statement is not clause.strictest]
    if not told:
        return ""
    rows = []
    for statement in told:
        told_as = (
            say("if found: {consequence}", consequence=CONSEQUENCES[statement.otherwise])
            if clause.quantity.startswith(FINDING)
            else statement.printed
        )
        rows.append(f"<li>{words(told_as)} ({words(to_rely_on(statement.kind, statement.source))})</li>")
    beside = say("Also stated; the stricter one decides unless your own law says otherwise:")
    if clause.house is not None:
        beside = say("The rulebook itself says:")
    return f'<p class="limit-also">{beside}</p>\n<ul class="limit-statements">{"".join(rows)}</ul>\n'


def _job_step(step: Step, page: Page) -> str:
    limits = []
    for name in step.clauses:
        clause = page.edition.clause(name)
        if set(page.casings) & set(clause.casings):
            label = "" if clause.quantity.startswith(FINDING) else f"{words(clause.title)}: "
            limits.append(label + page.inline("limit", name))
    margin = f'<span class="job-limit">{"<br>".join(limits)}</span>' if limits else ""
    tools = say("Tools: {tools}.", tools=", ".join(str(tool) for tool in step.tools)) if step.tools else ""
    with_tools = f' <span class="job-tools">{words(tools)}</span>' if tools else ""
    return (
        f'<li><span class="job-box" aria-hidden="true"></span><div><strong>{words(step.title)}.</strong> '
        f"{words(step.instruction)}{with_tools}</div>{margin}</li>"
    )


def _box(page: Page, kind: str, title: str, block: Block) -> str:
    name = page.box_id(kind)
    body = to_html(written(block), page.inline)
    return f'<section class="{kind}" aria-labelledby="{name}">\n<h2 id="{name}">{words(title)}</h2>\n{body}</section>'
