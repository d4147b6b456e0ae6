"""Pictures of conditions: made anew from their seed, graded, and no clue beside what is to be seen."""

import io
import json
import os
import re
import subprocess
import sys
import time
import zlib
from functools import cache
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from tests.examples import times
from tests.pictures.measuring import LEAST_TOLD_APART, MOST_AREA, auc, changed, chunks, taken, told_apart
from training.pictures import CONDITIONS, HEIGHT, WIDTH, Degree, Picture, picture, picture_of, render
from training.pictures.drawing.scene import DRAWN
from training.rulebook import FINDINGS

ROOT = Path(__file__).parents[2]
NAMES = list(CONDITIONS)
EVERYWHERE = frozenset(["wear-indicators-flush"])  # all grooves are shallow, not those of one place


@cache
def shown(name: str, degree: Degree, seed: int = 0, look_alike: bool = False) -> Picture:
    """Drawn once for all tests."""
    return picture(name, degree=degree, look_alike=look_alike, seed=seed)


@pytest.mark.parametrize("name", NAMES)
def test_the_same_seed_gives_the_same_picture_and_another_gives_another(name: str) -> None:
    first = shown(name, Degree.PLAIN).pixels

    assert (picture(name, degree="plain", seed=0).pixels == first).all()
    assert (shown(name, Degree.PLAIN, 1).pixels != first).any()
    assert (shown(name, Degree.SLIGHT, look_alike=True).pixels != first).any()


@pytest.mark.parametrize("look_alike", [False, True])
@pytest.mark.parametrize("name", NAMES)
def test_a_picture_is_as_bright_and_contrasty_as_its_seed_says(name: str, look_alike: bool) -> None:
    """The seed knows nothing of the kind, so neither number tells it; `python -m tests.pictures leaks` measures it."""
    for degree, seed in product(Degree, range(times(1))):
        one = shown(name, degree, seed, look_alike)

        assert one.pixels.shape == (HEIGHT, WIDTH)
        assert one.pixels.dtype == np.uint8
        assert one.pixels.mean() == pytest.approx(one.setting.brightness, abs=0.3)
        assert one.pixels.std() == pytest.approx(one.setting.contrast, abs=0.3)
        assert ((one.pixels == 0) | (one.pixels == 255)).mean() < 0.02  # little is burnt out or drowned


@pytest.mark.parametrize("name", NAMES)
def test_what_the_seed_says_is_spread_alike_for_both_kinds(name: str) -> None:
    """A thousand of each, on other seeds; the test above holds pictures to it."""
    sides = [
        [picture(name, degree="grave", look_alike=look_alike, seed=seed) for seed in seeds]
        for look_alike, seeds in ((False, range(1000)), (True, range(1000, 2000)))
    ]

    numbers = {
        "brightness": [[one.setting.brightness for one in side] for side in sides],
        "contrast": [[one.setting.contrast for one in side] for side in sides],
        "side": [[float(one.side == "left") for one in side] for side in sides],
        "from the left": [[one.place[0] for one in side] for side in sides],
        "from the top": [[one.place[1] for one in side] for side in sides],
    }
    assert {what: area for what, both in numbers.items() if (area := auc(*both)) > MOST_AREA} == {}


@pytest.mark.parametrize("look_alike", [False, True])
@pytest.mark.parametrize("name", NAMES)
def test_a_file_is_a_webp_as_long_as_every_other(name: str, look_alike: bool) -> None:
    one = shown(name, Degree.GRAVE, 0, look_alike)
    image = Image.open(io.BytesIO(one.file))

    assert len(one.file) == 64 * 1024
    # the size that RIFF states, and the chunks that WebP asks for: RFC 9649, 2.4 to 2.7
    assert int.from_bytes(one.file[4:8], "little") == len(one.file) - 8
    assert list(chunks(one.file)) == [b"VP8X", b"VP8 ", b"fill"]
    assert (image.format, image.size) == ("WEBP", (640, 480))
    # lossy, but what is to be seen stays
    assert np.abs(np.asarray(image.convert("L"), np.float32) - one.pixels).mean() < 5


def test_what_packs_an_answer_of_the_server_does_not_make_files_differ() -> None:
    """The filling is as good as random: a packer finds next to nothing in it."""
    sizes = [len(zlib.compress(shown(name, Degree.GRAVE).file)) for name in NAMES[::4]]

    assert min(sizes) >= 0.99 * 64 * 1024


@pytest.mark.parametrize("name", NAMES)
def test_each_degree_shows_more_than_the_one_before(name: str) -> None:
    seeds = range(times(2))
    amounts = [float(np.mean([changed(shown(name, degree, seed)) for seed in seeds])) for degree in Degree]

    assert amounts == sorted(amounts)
    assert amounts[0] > 0.05
    assert amounts[2] > 1.3 * amounts[0]


@pytest.mark.parametrize("name", [name for name in NAMES if name not in EVERYWHERE])
def test_the_mark_lies_where_the_picture_says(name: str) -> None:
    """Around the place more is changed than over the whole picture."""
    shares = []
    for seed in range(times(2)):
        one = shown(name, Degree.PLAIN, seed)
        difference = changed(one)
        left, top = (int(number) for number in one.place)
        near = difference[max(0, top - 150) : top + 150, max(0, left - 200) : left + 200]
        shares.append(near.mean() / difference.mean())

    assert float(np.mean(shares)) > 1.1


@pytest.mark.parametrize("name", ["bulge", "liner-blistered"])
def test_a_small_classifier_tells_a_grave_condition_from_what_is_taken_for_it(name: str) -> None:
    """A sample of two pairs; `python -m tests.pictures classify` takes all of them and two hundred of each kind."""
    assert told_apart(*taken(name, Degree.GRAVE, range(times(12)), learning=True)) >= LEAST_TOLD_APART


def test_a_mark_lies_anywhere_and_the_lamp_on_either_side() -> None:
    pictures = [picture("bulge", degree="slight", seed=seed) for seed in range(12)]

    assert {(one.side, one.setting.above) for one in pictures} == {
        ("left", "above"), ("left", "below"), ("right", "above"), ("right", "below")
    }  # fmt: skip
    assert {one.setting.lit_from for one in pictures} == {"left", "right"}


def test_what_lights_the_picture_stands_where_it_is_said_to() -> None:
    """The flank of a dome that looks toward the lamp is the brighter one."""
    for seed in range(4):
        one = shown("bulge", Degree.GRAVE, seed)
        left, top = (int(number) for number in one.place)
        rows = slice(top - 40, top + 40)
        flanks = {"left": one.pixels[rows, left - 90 : left - 20], "right": one.pixels[rows, left + 20 : left + 90]}

        assert max(flanks, key=lambda side: flanks[side].mean()) == one.setting.lit_from


def test_every_condition_is_drawn_and_its_finding_is_one_of_the_vocabulary() -> None:
    assert set(DRAWN) == set(CONDITIONS)
    assert {condition.finding for condition in CONDITIONS.values()} - {None} <= set(FINDINGS)


@pytest.mark.parametrize("look_alike", [False, True])
def test_parameters_go_through_json_and_give_the_same_bytes(look_alike: bool) -> None:
    one = picture("chunking", degree="slight", look_alike=look_alike, seed="a7")
    stored = json.loads(json.dumps(one.parameters))

    assert picture_of(stored) == one
    assert render(stored) == one.file


def test_another_process_makes_the_same_bytes() -> None:
    code = (
        "import sys; from training.pictures import picture; "
        "sys.stdout.buffer.write(picture('bulge', degree='grave', seed=0).file)"
    )
    made = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, check=True).stdout

    assert made == shown("bulge", Degree.GRAVE).file


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ({"name": "rust"}, "picture: 'rust' is not known; choose from ozone-cracking"),
        ({"degree": "awful"}, "degree: 'awful' is not known; choose from slight, plain, grave"),
        ({"look_alike": 1}, "look_alike: 1 is neither true nor false"),
        ({"seed": 1.5}, "seed: 1.5 is neither a whole number nor a text"),
        ({"seed": True}, "seed: True is neither"),
        ({"lamp": "left"}, "degree, lamp, look_alike, name, seed given; name, degree, look_alike, seed are accepted"),
    ],
)
def test_parameters_that_are_not_known_are_refused(wrong: dict[str, object], named: str) -> None:
    parameters: dict[str, object] = {"name": "bulge", "degree": "plain", "look_alike": False, "seed": 1}

    with pytest.raises(ValueError, match=re.escape(named)):
        render({**parameters, **wrong})


def test_a_parameter_that_is_missing_is_refused() -> None:
    with pytest.raises(ValueError, match="degree, name given; name, degree, look_alike, seed are accepted"):
        picture_of({"name": "bulge", "degree": "plain"})


def test_nobody_who_draws_no_picture_loads_what_draws() -> None:
    """Neither the front with its words and parameters, nor the site with all its pages, nor its commands."""
    code = (
        "import sys; from training.pictures import picture; "
        "one = picture('bulge', degree='grave', seed=5); assert one.description and one.side; "
        "import django; django.setup(); from django.core.management import call_command; call_command('check'); "
        "from django.urls import get_resolver; assert get_resolver().url_patterns; "
        "sys.exit(' '.join({'numpy', 'training.pictures.drawing'} & {*sys.modules}) or 0)"
    )
    site = {**os.environ, "DJANGO_SETTINGS_MODULE": "training.config.settings_test"}
    run = subprocess.run([sys.executable, "-c", code], cwd=ROOT, env=site, capture_output=True, text=True, check=False)

    assert (run.returncode, run.stderr) == (0, "")


def test_a_picture_takes_little_of_the_processor() -> None:
    """The aim is 40 ms with its file, in the median; the bound is loose, for machines that are shared."""
    assert shown("bulge", Degree.GRAVE).file  # the noise is built once
    spent = []
    for name in NAMES:
        start = time.process_time()
        assert picture(name, degree="grave", seed=2).file
        spent.append(time.process_time() - start)

    assert float(np.median(spent)) < 0.12
