"""The pieces of a lesson page: limit cards, drawings, tables of findings, job cards and boxes, as HTML."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import escape

from training.course.loader import Block, CourseError, modules
from training.course.prose import to_html, words
from training.drawings import ILLUSTRATIONS, Figure, illustration
from training.rulebook import Clause, Edition, Step, UnknownClause, procedure, vocabulary

KINDS: Mapping[str, str] = {
    "law": "Law",
    "standard": "Standard",
    "guidance": "Guidance",
    "common-practice": "Common practice",
    "from-memory": "From memory: the source was not read again, check it before you quote it",
}
METHODS: Mapping[str, str] = {"one-piece": "one-piece unit", "two-piece": "two-piece repair"}


@dataclass(slots=True)
class Page:
    """What a lesson has printed so far: `clauses` in order, `carded` those that stand on a card or in a table."""

    edition: Edition
    prefer: str
    clauses: list[str] = field(default_factory=list)
    carded: set[str] = field(default_factory=set)
    boxes: int = 0

    def clause(self, name: str) -> Clause:
        """The clause, noted as printed. Raises CourseError for one the edition does not have."""
        try:
            found = self.edition.clause(name)
        except UnknownClause as error:
            raise CourseError(str(error)) from error
        if name not in self.clauses:
            self.clauses.append(name)
        return found

    def facts(self) -> list[str]:
        """What the rulebook put on this page, for the content version."""
        printed = [self.edition.clause(name) for name in self.clauses]
        return [f"{clause.id}|{clause.limit_text()}|{clause.otherwise}|{clause.because}" for clause in printed]

    def box_id(self, kind: str) -> str:
        """A fresh id for a box's heading."""
        self.boxes += 1
        return f"{kind}-{self.boxes}"

    def inline(self, kind: str, name: str) -> str:
        """HTML of an inline directive."""
        if kind == "lesson":
            titles = {lesson.slug: lesson.title for module in modules() for lesson in module.lessons}
            return f"<cite>{words(titles[name])}</cite>"
        return f'<a class="limit" href="#limit-{escape(name)}">{words(self.clause(name).limit_text())}</a>'


def limit_card(block: Block, page: Page) -> str:
    """`::limit`: what the clause demands, why, and who says so."""
    clause = page.clause(block.argument)
    if clause.id in page.carded:
        anchor = ""
    else:
        anchor = f' id="limit-{escape(clause.id)}"'
        page.carded.add(clause.id)
    return (
        f'<section class="limit-card"{anchor} aria-label="Limit: {words(title_of(clause))}">\n'
        f'<p class="limit-title">{words(title_of(clause))}</p>\n'
        f'<p class="limit-value">{words(clause.limit_text())}</p>\n'
        f'<p class="limit-because">{words(clause.because)}</p>\n'
        f"{_other_statements(clause)}"
        f'<p class="limit-source">{words(provenance(clause))}</p>\n'
        "</section>"
    )


def drawing(block: Block, page: Page) -> str:
    """`::figure`: one of the illustrations."""
    if block.argument not in ILLUSTRATIONS:
        raise CourseError(f"figure {block.argument!r} is not known; choose {', '.join(ILLUSTRATIONS)}")
    return figure_html(illustration(block.argument, page.edition))


def figure_html(figure: Figure) -> str:
    """A drawing with the same information in words."""
    return (
        f'<figure class="figure">\n{figure.svg}\n'
        f"<figcaption><details><summary>What the drawing shows</summary>"
        f"<p>{words(figure.description)}</p></details></figcaption>\n</figure>"
    )


def findings(block: Block, page: Page) -> str:
    """`::findings`: a table of what one may find, by consequence or by name."""
    meanings = {word: meaning for name, word, meaning in vocabulary() if name == "findings"}
    every = [clause for clause in page.edition.clauses.values() if clause.quantity.startswith("finding.")]
    names = block.argument.split()
    if names in (["reject"], ["advise"]):
        chosen = [clause for clause in every if clause.otherwise == names[0] and not clause.jurisdiction]
        caption = "Findings that take a tire out of service" if names[0] == "reject" else "Findings to tell the customer"
    else:
        by_slug = {clause.quantity.removeprefix("finding."): clause for clause in every}
        for name in names:
            if name not in by_slug:
                raise CourseError(f"finding {name!r} is not known; choose {', '.join(by_slug)}")
        chosen = [by_slug[name] for name in names]
        caption = "What may be found"
    rows = []
    for clause in chosen:
        page.clause(clause.id)
        slug = clause.quantity.removeprefix("finding.")
        anchor = "" if clause.id in page.carded else f' id="limit-{escape(clause.id)}"'
        page.carded.add(clause.id)
        rows.append(
            f'<tr{anchor}><th scope="row">{words(_sentence(meanings.get(slug, slug)))}</th>'
            f'<td data-label="Why">{words(clause.because)}</td>'
            f'<td data-label="Source">{words(provenance(clause))}</td></tr>'
        )
    return (
        f'<div class="table-box" role="region" aria-label="{words(caption)}" tabindex="0">\n'
        f'<table class="data-table stack">\n<caption>{words(caption)}</caption>\n'
        '<thead><tr><th scope="col">What you find</th><th scope="col">Why</th><th scope="col">Source</th></tr></thead>\n'
        f"<tbody>\n{chr(10).join(rows)}\n</tbody>\n</table>\n</div>"
    )


def job_card(block: Block, page: Page) -> str:
    """`::steps`: a job card, all steps of a method or the named ones."""
    method, _, wanted = block.argument.partition(":")
    if method.strip() not in METHODS:
        raise CourseError(f"method {method.strip()!r} is not known; choose {', '.join(METHODS)}")
    known = {step.id: step for step in procedure(page.edition, method=method.strip())}
    names = wanted.split() or list(known)
    for name in names:
        if name not in known:
            raise CourseError(f"step {name!r} is not known; choose {', '.join(known)}")
    items = "\n".join(_job_step(known[name], page) for name in names)
    name = words(METHODS[method.strip()])
    return f'<section class="job-card" aria-label="Job card, {name}">\n<ol>\n{items}\n</ol>\n</section>'


def text(block: Block, page: Page) -> str:
    """Plain Markdown."""
    return to_html(block.body, page.inline)


def caution(block: Block, page: Page) -> str:
    """`::caution`: what can hurt."""
    return _box(page, "caution", f"Caution: {block.argument}", to_html(block.body, page.inline))


def stop(block: Block, page: Page) -> str:
    """`::stop`: what ends the work."""
    return _box(page, "stop-box", "Stop here if", to_html(block.body, page.inline))


def self_check(block: Block, page: Page) -> str:
    """`::self-check`: questions for the hands."""
    return _box(page, "self-check", "Before you go on", to_html(block.body, page.inline))


def sources(page: Page) -> str:
    """The limits that the page named without a card, each with who says so."""
    names = [name for name in page.clauses if name not in page.carded]
    if not names:
        return ""
    rows = []
    for name in names:
        clause = page.edition.clause(name)
        rows.append(
            f'<dt id="limit-{escape(name)}">{words(title_of(clause))}: {words(clause.limit_text())}</dt>'
            f"<dd>{words(clause.because)} {words(provenance(clause))}</dd>"
        )
    return (
        '<section class="lesson-sources" aria-labelledby="lesson-sources">\n'
        '<h2 id="lesson-sources">Where the other limits come from</h2>\n'
        f'<dl class="facts">\n{chr(10).join(rows)}\n</dl>\n</section>'
    )


def provenance(clause: Clause) -> str:
    """Kind, source, and when somebody last read it."""
    source = clause.source.strip().rstrip(".")
    return f"{KINDS.get(clause.kind, clause.kind)}. {source}. Checked on {clause.checked_on.isoformat()}."


def title_of(clause: Clause) -> str:
    """A clause's name as words."""
    return clause.id.replace("-", " ").capitalize()


def _other_statements(clause: Clause) -> str:
    told = [statement for statement in clause.statements if statement is not clause.strictest]
    if not told:
        return ""
    rows = []
    for statement in told:
        kind = KINDS.get(statement.kind, statement.kind).partition(":")[0]
        follows = f", otherwise {statement.otherwise}" if statement.otherwise != clause.otherwise else ""
        rows.append(f"<li>{words(statement.text)}{words(follows)} ({words(kind)}: {words(statement.source)})</li>")
    return (
        '<p class="limit-also">Also stated; the stricter decides unless your own law says otherwise:</p>\n'
        f'<ul class="limit-statements">{"".join(rows)}</ul>\n'
    )


def _job_step(step: Step, page: Page) -> str:
    limits = []
    for name in step.clauses:
        limits.append(page.inline("limit", name))
    margin = f'<span class="job-limit">{"<br>".join(limits)}</span>' if limits else ""
    tools = f' <span class="job-tools">Tools: {words(", ".join(step.tools))}.</span>' if step.tools else ""
    return (
        f'<li><span class="job-box" aria-hidden="true"></span><div><strong>{words(step.title)}.</strong> '
        f"{words(step.instruction)}{tools}</div>{margin}</li>"
    )


def _box(page: Page, kind: str, title: str, body: str) -> str:
    name = page.box_id(kind)
    return f'<section class="{kind}" aria-labelledby="{name}">\n<h2 id="{name}">{words(title)}</h2>\n{body}</section>'


def _sentence(meaning: str) -> str:
    return meaning[:1].upper() + meaning[1:]


BUILDERS: Mapping[str, Callable[[Block, Page], str]] = {
    "text": text,
    "limit": limit_card,
    "figure": drawing,
    "findings": findings,
    "steps": job_card,
    "caution": caution,
    "stop": stop,
    "self-check": self_check,
}
