"""The hole that a reader moves on the page of a lesson: drawing, verdict, sliders, ready moves; and what of it changes.

The drawing, the verdict and the tracks are exchanged while it is moved, the fields never: so the slider keeps the focus
and nothing jumps. Without a script the fields are a form and the ready moves are links, to the same page.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from urllib.parse import urlencode

from training.course.blocks import Page, figure_html
from training.course.lessons import Block, CourseError
from training.course.movable import SLIDERS, WAS, Field, Movable, Moved, read_movable
from training.course.prose import words
from training.drawings import Figure, Mark, View, cross_section, slider_track, verdict_mark
from training.rulebook import Quantity, read_off, told, words_of
from training.trade.lists import one_of
from training.trade.speech import once_a_language, say, saying
from training.trade.words import METHOD_WORDS, uncapital

ANCHOR = "movable"
# From the page of the lesson to what is exchanged of it, wherever the site stands.
_AT = "moved/"
_AT_TREAD, _AT_LINER = "injury.crown_margin", "injury.exit_margin"
_PUNCTURE = "injury.kind"
_MOVES: Mapping[str, str] = {
    "lean": saying("Lean it {lean}"), "thickness": saying("Make it thinner"), "place": saying("Move it inward"),
}  # fmt: skip
_BESIDE_MM = (12.0, 17.0)  # of rubber inside the least place and outside the line, always in view


def movable_html(block: Block, page: Page) -> str:
    """`::movable`: on the page of a lesson with its fields, anywhere else as it stands at first."""
    movable = read_movable(block, page.edition, page.prefer)
    start = movable.at_start
    turns = "|".join(f"{name}={start.turn(name)}" for name in SLIDERS)
    page.outcomes.append(f"{movable.title}|{start.decision.verdict}|{turns}")
    if page.is_still:
        return f"{figure_html(_drawn(start))}\n{_verdict(start)}"
    if page.movable is not None:
        raise CourseError("::movable: a lesson moves one thing; this is the second")
    html = whole(movable, {})
    page.movable = movable, html
    return html


def whole(movable: Movable, asked: Mapping[str, str]) -> str:
    """All of it, moved by the values of an address."""
    values, refused = movable.read(asked)
    shown = movable.moved(values)
    typed = {name: asked[name] for name in refused}
    rows = "\n".join(_row(field, shown, typed, refused) for field in movable.fields)
    label, show = say(movable.title), say("Show it")
    return (
        f'<form class="movable" id="{ANCHOR}" method="get" action="#{ANCHOR}" aria-label="{words(label)}" '
        f'autocomplete="off" hx-get="{_AT}" hx-trigger="input delay:120ms, submit" hx-target="#{ANCHOR}-shown" '
        f'hx-swap="outerHTML" hx-sync="this:replace">\n{_shown(shown)}\n'
        f'<p class="visually-hidden" role="status" id="{ANCHOR}-said"></p>\n'
        f'<div class="slides">\n{rows}\n</div>\n'
        f'<p class="actions movable-moves no-print"><button class="movable-show">{words(show)}</button>'
        f"{_moves(movable)}</p>\n{_problem(refused)}\n{_variants(movable)}</form>"
    )


def exchanged(movable: Movable, asked: Mapping[str, str]) -> str:
    """What of it another address changes: drawing and verdict, then the tracks and what is wrong in the fields."""
    values, refused = movable.read(asked)
    shown = movable.moved(values)
    tracks = "\n".join(_track(movable.field(name), shown, is_swapped=True) for name in SLIDERS)
    return f"{_shown(shown)}\n{tracks}\n{_problem(refused, is_swapped=True)}"


def _shown(shown: Moved) -> str:
    """What is exchanged in one piece. The drawing's words are its label alone: a fold of them would close each time."""
    was = ";".join(shown.values[field.name].text for field in shown.movable.fields)
    return (
        f'<div id="{ANCHOR}-shown">\n<div class="figure">{_drawn(shown).svg}</div>\n{_verdict(shown)}\n'
        f'<input type="hidden" name="{WAS}" value="{_typed(was)}"></div>'
    )


def _drawn(shown: Moved) -> Figure:
    movable = shown.movable
    line, place, thick = shown.line, movable.field("place"), movable.field("thickness")
    low = movable.field("place").at(place.least).number - _BESIDE_MM[0]
    end = line.at_mm if line is not None else place.at(place.most).number
    view = View(low, end + _BESIDE_MM[1], thick.at(thick.most).number)
    return cross_section(shown.case, prefer=movable.prefer, show_liner_exit=True, edition=movable.edition, view=view)


# -- the verdict


def _verdict(shown: Moved) -> str:
    decision, movable = shown.decision, shown.movable
    name = words_of(decision, shown.case, edition=movable.edition, units=None).name
    sentences = " ".join((*_margins(shown), *_others(shown), *(words(one) for one in _turns(shown))))
    way = f'<span class="verdict-meaning">{words(_methods(shown))}</span>' if _methods(shown) else ""
    return (
        f'<div class="movable-verdict" data-verdict="{words(name)}"><p class="verdict verdict--{decision.verdict}">'
        f'{verdict_mark(decision.verdict)}<span><span class="verdict-word">{words(name)}</span>{way}</span></p>\n'
        f"<p>{sentences}</p></div>"
    )


def _methods(shown: Moved) -> str:
    plan = shown.decision.plan or ()
    return one_of(str(METHOD_WORDS[way]) for way in plan[0].methods_allowed) if plan else ""


def _margins(shown: Moved) -> Iterator[str]:
    """Under the titles of their clauses: how far the whole hole lies inside the line, at the liner and at the tread."""
    inside, line, movable = shown.inside_mm, shown.line, shown.movable
    if inside is None or line is None:
        return
    for quantity, margin_mm in ((_AT_LINER, inside[1]), (_AT_TREAD, inside[0])):
        clause = movable.edition.limit(quantity, shown.case.tire.casing)
        if clause is None:
            continue
        length = read_off(margin_mm, movable.prefer).text.lstrip("-")
        if margin_mm < 0:
            sentence = say("The far edge is {length} past the {line}.", length=length, line=line.name)
        elif length.startswith("0 "):
            sentence = say("Just met.")
        else:
            sentence = say("Met, with {length} to spare.", length=length)
        title = say("{title}.", title=clause.title)
        yield f"<strong>{words(title)}</strong> {words(sentence)}"


def _others(shown: Moved) -> Iterator[str]:
    """What else decides that no place can mend, such as the size of the hole."""
    edition, decision = shown.movable.edition, shown.decision
    told_already = {_AT_TREAD, _AT_LINER} if shown.inside_mm is not None else set()
    if shown.holds:
        return
    for ruling in decision.deciding:
        clause = edition.clauses.get(ruling.clause)
        if clause is None or clause.quantity not in told_already | {_PUNCTURE}:
            yield words(told([ruling], edition)[0].sentence)


def _turns(shown: Moved) -> Iterator[str]:
    """Up to which lean it is what, at this place and thickness."""
    lean, last = shown.movable.field("lean"), shown.turn("lean")
    if last is None:
        yield say("At this place no lean makes it a repair.")
    elif last == lean.most:
        yield say("Up to {lean} it stays so.", lean=lean.at(last).printed)
    else:
        held = shown.at_turn("lean")
        methods = "" if held is None else _methods(held)
        yield say("Up to {lean} it may be repaired; allowed: {methods}.", lean=lean.at(last).printed, methods=methods)


def _word(shown: Moved) -> str:
    """The verdict as a word inside a sentence."""
    return uncapital(words_of(shown.decision, shown.case, edition=shown.movable.edition, units=None).name)


# -- the fields


def _row(field: Field, shown: Moved, typed: Mapping[str, str], refused: Mapping[str, str]) -> str:
    name, value = field.name, shown.values[field.name]
    text = typed.get(name, _bare(value))
    number, described = f"{ANCHOR}-{name}", f"{ANCHOR}-{name}-told"
    invalid = ' aria-invalid="true"' if name in refused else ""
    keypad = "" if field.unit == "in" else ' inputmode="decimal"'
    is_slider = name in SLIDERS
    tells = f' aria-describedby="{described}"' if is_slider else ""
    unit = "°" if field.unit == "deg" else field.unit
    box = (
        f'<div class="slide slide--{name}"><label for="{number}">{words(field.label)}</label>\n'
        f'<span class="slide-number"><input id="{number}" name="{name}" type="text"{keypad} value="{_typed(text)}"'
        f'{tells}{invalid}><span class="unit">{unit}</span></span>\n'
    )
    if not is_slider:
        return f"{box}</div>"
    slider = say("{field}, slider", field=field.label)
    return (
        f'{box}<div class="slide-way">{_track(field, shown)}<input class="slide-range no-print" type="range" '
        f'aria-label="{words(slider)}" min="{field.least}" max="{field.most}" step="{field.step}" '
        f'value="{round(field.least + field.share(value) * (field.most - field.least))}" data-of="{number}" '
        f'data-parts="{field.parts}" data-unit="{unit}" hidden></div></div>'
    )


def _track(field: Field, shown: Moved, *, is_swapped: bool = False) -> str:
    last, edition_end = shown.turn(field.name), shown.movable.one_piece_ends()
    held, failed = _at_ends(field, shown)
    turn = None
    if last is not None and last < field.most:
        turn = Mark(field.share(field.at(last)), _bare(field.at(last)))
    change = None
    if field.name == "lean" and edition_end is not None and field.least < _count(field, edition_end) < field.most:
        change = Mark(field.share(edition_end), say("{lean}: one-piece ends", lean=edition_end.printed))
    drawn = slider_track(
        least=_bare(field.at(field.least)),
        most=_bare(field.at(field.most)),
        turn=turn,
        here=field.share(shown.values[field.name]),
        holds=held,
        fails=failed,
        all_fail=last is None,
        change=change,
    )
    if last is None:
        said = say("No value makes it a repair.")
    elif turn is None:
        said = say("It holds all along, up to {last}.", last=field.at(last).printed)
    else:
        said = say("It holds up to {last}.", last=field.at(last).printed)
    swap = ' hx-swap-oob="true"' if is_swapped else ""
    at = f"{ANCHOR}-{field.name}"
    return (
        f'<div class="slide-track" id="{at}-track"{swap}>{drawn}'
        f'<p class="visually-hidden" id="{at}-told">{words(said)}</p></div>'
    )


def _at_ends(field: Field, shown: Moved) -> tuple[str, str]:
    """What its least and its most value come to."""
    ends = [shown.movable.moved({**shown.values, field.name: field.at(count)}) for count in (field.least, field.most)]
    return _word(ends[0]), _word(ends[1])


def _count(field: Field, value: Quantity) -> float:
    return field.least + field.share(value) * (field.most - field.least)


def _bare(value: Quantity) -> str:
    """A value without its unit, which stands beside it."""
    return value.text.removesuffix(value.unit).rstrip()


def _typed(text: str) -> str:
    """A text as the value of a field, its spaces as a keyboard has them whatever becomes of those on the page."""
    return words(text).replace(" ", "&#32;")


def _problem(refused: Mapping[str, str], *, is_swapped: bool = False) -> str:
    swap = ' hx-swap-oob="true"' if is_swapped else ""
    names = " ".join(refused)
    lines = " ".join(map(words, refused.values()))
    if refused:
        still = say("Shown is what was there before.")
        lines += f" {words(still)}"
    return (
        f'<div class="movable-problem no-print" id="{ANCHOR}-problem" role="alert" data-refused="{names}"{swap}>'
        f"{lines}</div>"
    )


# -- ready moves, and the same on paper


@once_a_language(64)
def _moves(movable: Movable) -> str:
    """From how it stands at first, each value by itself moved to where it just holds; and back."""
    start, links = movable.at_start, []
    for name, moved in _held(start):
        label = say(_MOVES[name], lean=moved.values["lean"].printed)
        address = f"?{words(_address(moved.values))}#{ANCHOR}"
        links.append(f'<a class="button button--quiet" href="{address}" data-move>{words(label)}</a>')
    over, values = say("Start over"), words(_address(start.values))
    links.append(f'<a class="movable-over" href="?#{ANCHOR}" data-move data-start="{values}">{words(over)}</a>')
    return "".join(links)


def _held(start: Moved) -> Iterator[tuple[str, Moved]]:
    for name in _MOVES:
        moved = start.at_turn(name)
        if moved is not None and moved.values[name] != start.values[name] and moved.holds != start.holds:
            yield name, moved


def _address(values: Mapping[str, Quantity]) -> str:
    return urlencode({name: _bare(value) for name, value in values.items()})


@once_a_language(64)
def _variants(movable: Movable) -> str:
    """On paper, and where nothing can be moved: the ready moves as they come out."""
    lines = []
    for name, moved in _held(movable.at_start):
        label = say(_MOVES[name], lean=moved.values["lean"].printed)
        lines.append(
            f'<div class="movable-variant"><p><strong>{words(label)}</strong></p>'
            f'<div class="figure">{_drawn(moved).svg}</div>{_verdict(moved)}</div>'
        )
    return f'<div class="movable-variants">{"".join(lines)}</div>'
