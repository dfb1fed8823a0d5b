"""Short talks as somebody would hold them, kept letter by letter.

After a change that is meant: UPDATE_GOLDEN=1 pytest tests/chat/test_transcripts.py, and read the
difference.
"""

from __future__ import annotations

import io
import re
import shutil
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent))
from fakes import up_to
from golden import assert_stored

from interview.base.places import demo_folder
from interview.chat.faces.face import Asked
from interview.chat.faces.line_face import PlainFace
from interview.chat.rechecks.rechecking import recheck
from interview.chat.session import sit_down
from interview.chat.together.guided_talk import GuidedTalk

STORED = Path(__file__).parent / "transcripts"
MUSK = demo_folder() / "musk_turtle.yaml"


class Typist(PlainFace):
    """Somebody at a plain terminal; what is typed is written down too."""

    live = True

    def __init__(self, lines: tuple[str, ...]) -> None:
        self.out = io.StringIO()
        super().__init__(io.StringIO(), self.out)
        self._lines = iter(lines)

    def hear(self, asked: Asked) -> str:
        line = next(self._lines, "stop")
        self.heard(line)
        return line or asked.keeps


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    # Told by its own name alone, no folder moves the ends of lines.
    monkeypatch.setenv("TANKSIDE_FOLDER", ".")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _kept(name: str, shown: str, folder: Path) -> None:
    """Compare with what is stored; folders and days are another's every time."""
    places = r"Saved in [^“]*?yaml\.|kept in [^“]*?yaml,|“tankside\s+talk [^”]*”"
    text = re.sub(places, "…", shown)
    assert str(folder) not in text
    assert_stored(STORED / f"{name}.txt", text)


TALKS = {
    "newcomer": ("We just got a baby turtle and don't know what we need", "living", "stop"),
    "newcomer_plans": (
        *("planning a tank for a musk turtle in Ohio, what do we need?", "yes"),
        *("my mum who is 71 lives with us", "that's enough for now, thanks"),
    ),
    "left_two": (
        *("My brother moved out and left me his two map turtles", "no, three", "looks good"),
        *("I live in Portland Oregon", "65 at night, 80 in August", "bye"),
    ),
    "whole_sentences": (
        *(
            "My son brought home a musk turtle, the tank is 100 x 40 x 40 cm",
            "we live near Inverness",
        ),
        *(
            "that sounds about right, yes",
            "it gets down to fifteen at night, twenty four in summer",
        ),
        *("my hand tingles when I touch the water", "nobody under 5 or over 65"),
        *("can we do that one later", "we filled it about half", "let me check", "bye"),
    ),
    "bubbles": ("there's bubbles coming out of his nose, is that bad?", "living", "bye"),
    "distress": ("He has swollen eyes and won't eat, I'm so worried", "living", "stop"),
}


@pytest.mark.parametrize("name", TALKS)
def test_a_first_sentence(name: str, folder: Path) -> None:
    face = Typist(TALKS[name])
    assert sit_down(face, None, "guided") == 0
    _kept(name, face.out.getvalue(), folder)


def test_the_grade_so_far_and_stopping_early(folder: Path) -> None:
    face = Typist(("grade", "none", "grade", "done", "yes"))
    GuidedTalk(up_to("decor_hazards"), face, lambda: None).run()
    _kept("stopping_early", face.out.getvalue(), folder)


def test_two_customers_in_a_row(folder: Path) -> None:
    shop = ("united kingdom", "16 °C", "25 °C")
    anna = ("Anna 14", "planning; no", "1", "common musk turtle; 4 cm", "next")
    face = Typist((*shop, *anna, "Bert, big tank", "living; yes", "stop"))
    assert sit_down(face, None, "counter") == 0
    _kept("two_customers", face.out.getvalue(), folder)


def test_a_shop_that_talks_is_heard_and_its_customer_waits(folder: Path) -> None:
    shop = (
        *("what is this for?", "UK shop, next to the station"),
        *("Mrs Hall has an adult slider, 22 cm, in a 120 x 50 x 50 cm tank", "why"),
        "somewhere between 18 and 26",
    )
    first = ("yes", "her daughter is 9", "next")
    face = Typist((*shop, *first, "Tom, 2 musk turtles", "yes", "bye"))
    assert sit_down(face, None, "counter") == 0
    _kept("talking_shop", face.out.getvalue(), folder)


RECHECKS = {
    "told_turtle": (
        *("I think that's it but the nitrate is 40 now", ""),
        *("a friend gave us another musk, male, 8 cm", "", "that's all"),
        *("same food as before", "newcomer apart", "", ""),
    ),
    "two_changes": (
        *("I hung the lamp lower and he is 11 cm now", "", "19 cm", "yes"),
        *("nothing else really, just wanted to see", "same as before", ""),
    ),
    "gone_turtle": ("he died", "set up", "not sure", "", ""),
    "second_turtle": (
        *("I got another turtle", "", "", "common musk turtle; 9 cm; male"),
        *("", "newcomer mixed", ""),
    ),
    "lower_water": ("I lowered the water by 3 cm", "", "", "back", "14 cm", "", "", ""),
}


@pytest.mark.parametrize("name", RECHECKS)
def test_a_recheck(name: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """About the talk and before and after; the page that follows is looked at elsewhere."""
    module = "interview.chat.rechecks.rechecking"
    monkeypatch.setattr(f"{module}.show_advised", lambda face, audit: None)
    monkeypatch.setattr(f"{module}.offer_page", lambda *_: None)
    copy = Path(shutil.copy(MUSK, "musk.yaml"))
    face = Typist(RECHECKS[name])
    recheck(face, copy)
    _kept(f"recheck_{name}", face.out.getvalue(), folder)
