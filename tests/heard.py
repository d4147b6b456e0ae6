"""What a page says to eyes and ears: its text, and the attributes that are shown or read aloud."""

from html.parser import HTMLParser

READ = {"aria-label", "title", "alt", "placeholder", "data-label"}
SAYS = "data-says-"
# elements whose words are read as they stand: what a file or the program itself must spell so, and what was typed
AS_WRITTEN = {"code", "pre", "textarea", "script", "style"}
VOID = {"input", "br", "meta", "link", "img", "hr"}


class Words(HTMLParser):
    """What a page says, in one text, and each attribute that is read beside it."""

    def __init__(self) -> None:
        super().__init__()
        self.text, self.attributes, self._within = "", [""], [""]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.attributes += [value or "" for name, value in attrs if name in READ or name.startswith(SAYS)]
        if tag not in VOID:
            self._within.append(tag)
        self.text += " "

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self._within.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag in self._within:
            while self._within.pop() != tag:
                pass
        self.text += " "

    def handle_data(self, data: str) -> None:
        if not AS_WRITTEN.intersection(self._within):
            self.text += data


def heard(html: str) -> list[str]:
    """The texts of a page, with single spaces: all that stands on it as one, and each attribute."""
    page = Words()
    page.feed(html)
    return [" ".join(text.split()) for text in (page.text, *page.attributes)]
