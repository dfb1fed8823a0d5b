"""What lies under the first page, shown when it is asked for: plans, numbers, one check."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from interview.chat.faces.face import Face
from interview.chat.hearing.replies import word_of
from interview.chat.hearing.told.emergencies import said_before_all
from interview.chat.talks.asides import named_in

if TYPE_CHECKING:
    from interview.report.page.coming import Coming

__all__ = ["WAYS_ON", "shown_layer"]

WAYS_ON = ("more", "plans", "numbers", "buy", "calendar", "mishaps", "why")
"""What can be typed after the page."""
_NAME_ONE = "Name one thing that was judged, as “why basking heat”; “more” lists all."
_SAME = {
    "plan": "plans",
    "number": "numbers",
    "the rest": "more",
    "everything": "more",
    "mishap": "mishaps",
}


def shown_layer(
    face: Face, shown: Coming, line: str, ill: Callable[[str], bool] | None = None
) -> bool:
    """Show what a line asks for; False where it asks for nothing that lies under the page.

    What is missing is worked out now; what tells of an ill animal goes first, `ill` answers it.
    """
    from interview.chat.asked.topics_in import answer_to
    from interview.report.page.layers import LAYERS, layer_blocks, why_blocks

    word = word_of(line)
    name = "buy" if named_in(line) == "buy" else _SAME.get(word, word)
    if name == "why" or name.startswith("why "):
        about = name.removeprefix("why").strip()
        if ill and ill(line):
            pass
        elif blocks := why_blocks(shown.audit, about):
            face.blocks(blocks)
        elif not said_before_all(line):
            face.say(answer_to(shown.audit, line) or _NAME_ONE)
        return True
    if name not in LAYERS:
        return False
    advice = shown.finished(face.working)
    if advice is None:
        face.say("The search was stopped before there was anything to show.")
    else:
        face.blocks(layer_blocks(name, shown.audit, advice))
    return True
