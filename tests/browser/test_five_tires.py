"""Five ordinary tires typed in on a phone as somebody new to it would, without one refusal: presses, swipes and keys.

The bounds are what it took on 2026-11-30, and two swipes, so that no later page asks for more.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, log_in, watch

pytestmark = pytest.mark.browser
PHONE = (390, 844)
BAR_PX = 60  # what a phone's own bars take of the window at each end
SWIPE_PX = 500  # how far one swipe of a thumb moves the page
GROUPS = ("Inside", "Outside and beads", "Tread", "Wheel, valve and sensor", "Markings")
PARTS = {"tire": ("casing", "purpose", "on_wheel", "build", "designation"), "inside": ("repairs",)}
OUTSIDE = ("retreaded", "vehicle", "axle", "dual", "recommended", "found", "depths_1")


@dataclass
class Thumb:
    """One thumb on a phone: it swipes to what it wants, presses it, types. Counts what that took."""

    page: Page
    presses: int = 0
    swipes: int = 0
    keys: int = 0
    fields: int = 0

    def _press(self, target: Any) -> None:
        box = target.bounding_box()
        top, bottom = BAR_PX, PHONE[1] - BAR_PX
        off = min(0, box["y"] - top) or max(0, box["y"] + box["height"] - bottom)
        if off:
            self.swipes += ceil(abs(off) / SWIPE_PX)
            self.page.mouse.wheel(0, off)
            self._come_to_rest()
        self.presses += 1

    def _come_to_rest(self) -> None:
        """Wait until the page has stopped moving: an address with a place in it is scrolled to softly."""
        at = None
        while at != (at := self.page.evaluate("scrollY")):
            self.page.wait_for_timeout(200)

    def choose(self, name: str, word: str) -> None:
        """Press a target; or open a list and press a line of it."""
        field = self.page.locator(f"#id_{name}")
        self._unfold(field)
        if field.evaluate("one => one.tagName") != "SELECT":
            target = field.locator(f".target--{word}")
            self._press(target)
            target.click()
            self.fields += 1
            return
        self._press(field)
        self.presses += 1
        field.select_option(word)
        self.fields += 1

    def _unfold(self, field: Any) -> None:
        folds = self.page.locator("details:not([open])").filter(has=field)
        while folds.count():  # the outer one first
            summary = folds.first.locator("> summary")
            self._press(summary)
            summary.click()

    def type(self, name: str, text: str, unit: str = "") -> None:
        """Press a field and type, with another unit chosen where `unit` says so."""
        field = self.page.locator(f"#id_{name}")
        self._unfold(field)
        self._press(field)
        field.click()
        self.page.keyboard.type(text)
        self.keys += len(text)
        self.fields += 1
        if unit:
            self.choose(f"{name}_unit", unit)
            self.fields -= 1

    def button(self, words: str | re.Pattern[str]) -> None:
        """Press a button."""
        button = self.page.get_by_role("button", name=words)
        self._press(button)
        button.click()
        self.page.wait_for_load_state("load")
        self._come_to_rest()

    def told(self, name: str, words: str) -> None:
        """Read below a field how it was understood, while the form is open."""
        self.page.keyboard.press("Tab")
        shown = self.page.locator(".measured", has=self.page.locator(f"#id_{name}")).locator("output")
        expect(shown).to_have_text(words)


@dataclass(frozen=True)
class Tire:
    """What a technician found, field by field in the order of the page, and the rulebook's word; "" for none yet."""

    casing: str
    purpose: str
    facts: Mapping[str, tuple[str, ...]]
    groups: tuple[str, ...]
    told: Mapping[str, str]
    word: str
    most: tuple[int, int, int]  # presses, swipes, keys

    def in_part(self, part: str) -> list[tuple[str, tuple[str, ...]]]:
        """What is typed on one screen, in the order of its fields."""
        elsewhere = {name for names in (*PARTS.values(), OUTSIDE) for name in names}
        names = PARTS.get(part, OUTSIDE if part == "outside" else tuple(set(self.facts) - elsewhere))
        order = list(self.facts)
        return [(name, self.facts[name]) for name in sorted(set(names) & set(self.facts), key=order.index)]


NAIL = {
    "on_wheel": ("no",),
    "build": ("radial",),
    "designation": ("205/55R16 91V",),
    "outer_groove": ("2 7/16",),
    "crown_thickness": ("1/2",),
    "injury_A_kind": ("puncture",),
    "injury_A_diameter": ("3/16",),
    "injury_A_angle": ("10",),
    "injury_A_lateral": ("3/4",),
    "injury_A_lean": ("out",),
    "depths_1": ("6, 6/32, 5",),
    "repairs": ("none",),
}
# Sources: US association puncture repair procedures (wall chart), passenger and light truck: in the crown, at most
# 1/4 in (6 mm) after damage removal; 49 CFR 393.75: at least 2/32 in of tread, 4/32 in on the front wheels of a truck
TIRES = {
    "a nail in the tread": Tire(
        "passenger", "repair", NAIL, GROUPS,
        {"injury_A_diameter": "3/16 in (4.8 mm)", "depths_1": "6/32 in (4.8 mm), 6/32 in (4.8 mm), 5/32 in (4 mm)"},
        "Repair", (24, 3, 41),
    ),
    "a bolt, read off a metric caliper": Tire(
        "passenger", "repair",
        {**NAIL, "injury_A_diameter": ("9,5", "mm"), "injury_A_lateral": ("-20mm",), "crown_thickness": ("0.5",)},
        GROUPS, {"injury_A_diameter": "9.5 mm (3/8 in)"}, "Reject", (25, 2, 42),
    ),
    "a screw in a work truck": Tire(
        "light-truck-fabric", "repair",
        {**NAIL, "designation": ("LT245/75R16",), "injury_A_diameter": ("7/32",), "injury_A_angle": ("25°",),
         "outer_groove": ("3",), "depths_1": ("10, 10, 9",)},
        GROUPS, {"injury_A_angle": "25°"}, "Repair", (24, 3, 34),
    ),
    "a worn front tire of a truck": Tire(
        "truck", "service",
        {"on_wheel": ("yes",), "build": ("radial",), "designation": ("295/75R22.5",), "retreaded": ("no",),
         "vehicle": ("truck",), "axle": ("front",), "dual": ("no",), "recommended": ("110",), "found": ("105psi",),
         "depths_1": ("3",), "repairs": ("none",)},
        (), {"depths_1": "3/32 in (2.4 mm)", "recommended": "110 psi (758 kPa)"}, "Not in this position", (23, 10, 21),
    ),
    "a car tire low on air": Tire(
        "passenger", "service",
        {"on_wheel": ("yes",), "build": ("radial",), "vehicle": ("car",), "axle": ("rear",),
         "recommended": ("2,4 bar",), "found": ("32",), "depths_1": ("5,5 mm; 6,0 mm",), "repairs": ("none",)},
        (), {"recommended": "2.4 bar (35 psi)", "found": "32 psi (221 kPa)"}, "", (18, 8, 23),
    ),
}  # fmt: skip


@pytest.fixture
def phone(chromium: Any, site: Site) -> Any:
    context = chromium.new_context(
        viewport={"width": PHONE[0], "height": PHONE[1]}, base_url=site.address, has_touch=True, is_mobile=True
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    yield page
    context.close()


@pytest.mark.parametrize("name", TIRES)
def test_an_ordinary_tire_is_typed_in_without_a_refusal(phone: Page, name: str) -> None:
    tire = TIRES[name]
    log_in(phone, "apprentice@quarry-road.example", PASSWORD)
    phone.goto(f"{SHOP}/check/")
    thumb = Thumb(phone)
    thumb.choose("casing", tire.casing)
    if tire.purpose != "repair":
        thumb.choose("purpose", tire.purpose)
    screens = 0
    for part in ("tire", "hole", "inside", "outside"):
        for field, typed in tire.in_part(part):
            if phone.locator(f"#id_{field}").evaluate("one => one.tagName") in ("SELECT", "DIV"):
                thumb.choose(field, *typed)
            else:
                thumb.type(field, *typed)
                if field in tire.told:
                    thumb.told(field, tire.told[field])
        for group in tire.groups if part in ("inside", "outside") else ():
            if phone.get_by_role("group", name=group, exact=True).count():
                thumb.button(re.compile(f"^{group}. I looked at all"))
                expect(phone.get_by_role("alert")).to_have_count(0)
        screens += 1
        thumb.button("Decide" if part == "outside" else re.compile("^Go on"))
        expect(phone.get_by_role("alert")).to_have_count(0)

    assert screens == 1 + 3  # which tire, and the three parts
    told = phone.locator("main p", has_text="What was typed was read as:")
    for words in tire.told.values():
        expect(told).to_contain_text(words)
    if tire.word:
        expect(phone.locator(".verdict-word").first).to_have_text(tire.word)
    else:
        expect(phone).to_have_title(re.compile("Not decided yet"))
    watch(phone, f"five tires {name}")
    address = phone.url
    for part in ("tire", "hole", "inside", "outside"):  # nothing that was typed is lost
        phone.goto(f"{address}&step={part}")
        for field, typed in tire.in_part(part):
            shown = phone.locator(f"#id_{field}")
            if shown.evaluate("one => one.tagName") == "DIV":
                expect(shown.locator(f"input[value='{typed[0]}']")).to_be_checked()
            else:
                expect(shown).to_have_value(typed[0])
    print(f"{name}: {thumb.presses} presses, {thumb.swipes} swipes, {thumb.keys} keys, {thumb.fields} fields")
    for took, most in zip((thumb.presses, thumb.swipes, thumb.keys), tire.most, strict=True):
        assert took <= most


def test_without_a_script_the_same_is_typed_and_read(chromium: Any, site: Site) -> None:
    context = chromium.new_context(
        viewport={"width": PHONE[0], "height": PHONE[1]}, base_url=site.address, java_script_enabled=False
    )
    page = context.new_page()
    page.set_default_timeout(15_000)
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/check/?casing=passenger&purpose=repair&step=hole")
    page.get_by_label("Crown thickness").fill("12,5")
    page.locator("#id_crown_thickness_unit input[value=mm]").check()
    page.get_by_role("button", name="3/16 in").first.click()  # the page comes back with it, and with what was typed
    expect(page.get_by_label("Crown thickness")).to_have_value("12,5")
    expect(page.get_by_label("Diameter, prepared").first).to_have_value("3/16")
    page.get_by_role("button", name="Decide with what is here").click()

    told = page.locator("main p", has_text="What was typed was read as:")
    expect(told).to_contain_text("Crown thickness: 12.5 mm (1/2 in); Injury A, diameter, prepared: 3/16 in (4.8 mm).")
    page.get_by_role("link", name="The hole").click()
    expect(page.get_by_label("Crown thickness")).to_have_value("12,5")
    expect(page.locator("#id_crown_thickness_unit input[value=mm]")).to_be_checked()
    context.close()
