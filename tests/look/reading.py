"""Reads a page as a browser does: elements in order, with their attributes and the text inside."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"input", "br", "hr", "img", "meta", "link", "source", "path", "line", "rect", "circle"}


@dataclass
class Element:
    tag: str
    attrs: dict[str, str]
    place: int
    parents: tuple["Element", ...]
    texts: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        return " ".join("".join(self.texts).split())


class Page(HTMLParser):
    """Elements of a page in document order."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.elements: list[Element] = []
        self.open: list[Element] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {k: v if v is not None else "" for k, v in attrs}, len(self.elements), tuple(self.open))
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open[-1].tag == tag, f"<{self.open[-1].tag}> is closed by </{tag}>"
            self.open.pop()

    def handle_data(self, data: str) -> None:
        for element in self.open:
            element.texts.append(data)

    def all(self, tag: str, **attrs: str) -> list[Element]:
        wanted = {name.rstrip("_").replace("_", "-"): value for name, value in attrs.items()}
        return [e for e in self.elements if e.tag == tag and all(e.attrs.get(n) == v for n, v in wanted.items())]

    def one(self, tag: str, **attrs: str) -> Element:
        (element,) = self.all(tag, **attrs)
        return element

    def by_id(self, name: str) -> Element:
        (element,) = [e for e in self.elements if e.attrs.get("id") == name]
        return element

    def controls(self) -> list[Element]:
        return [
            e for e in self.elements if e.tag in ("input", "select", "textarea") and e.attrs.get("type") != "hidden"
        ]
