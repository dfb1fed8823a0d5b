"""How often guesses of told stories are right, by how likely they seemed: to choose their bounds.

    python tests/benchmarks/bounds.py              # two minutes
    python tests/benchmarks/bounds.py trial        # of other told texts

Each cell is right:wrong, where a choice, a length, … seemed so likely. Nothing was learned from
these stories; a guess counts that anybody would look at, from six in ten.
"""

from __future__ import annotations

import sys
from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Any

TESTS = Path(__file__).parent.parent
sys.path[:0] = [str(TESTS.parent), str(TESTS / "words")]  # the tests are no package

from told_score import Score, add_scored, facts_of, never_noted, paragraphs

from interview import assembly
from interview.chat.hearing.told import guessed, story
from interview.graph.interview import Place

STORIES = ("tuning_bounds_1", "tuning_bounds_2", "tuning_bounds_3")
LOWEST = (0.6, 0.7, 0.8, 0.85, 0.9, 0.93, 0.95, 0.97, 0.98, 0.99)


def _counted(halves: list[str]) -> dict[str, dict[float, list[int]]]:
    """Right and wrong guesses by the type of their question and the lowest chance of a column."""
    asked, chances = assembly.questionnaire().by_id, dict[Place, float]()
    made = guessed.guesses

    def noted(*given: Any, **more: Any) -> Iterator[guessed.Guess]:
        for guess in made(*given, **more):
            chances[guess.place] = guess.chance
            yield guess

    story.guesses = noted
    guessed._OF_TURTLES = guessed._SURE = guessed._SUREST = LOWEST[0]
    found: dict[str, dict[float, list[int]]] = defaultdict(lambda: defaultdict(lambda: [0, 0]))
    rows = {half: paragraphs(half) for half in halves}
    unnoted = {half: never_noted(told) for half, told in rows.items()}
    for half, paragraph in ((half, row) for half, told in rows.items() for row in told):
        chances.clear()
        score = Score()
        add_scored(paragraph, score, unnoted[half])
        told = dict(facts_of(paragraph["facts"]))
        for place, chance in chances.items():
            wrong = place in score.wrongly
            if wrong or place in told:  # what only may be told is neither
                lowest = LOWEST[bisect_right(LOWEST, chance) - 1]
                for row in ("all", asked[place.id].type):
                    found[row][lowest][wrong] += 1
    return found


def _main() -> None:
    found = _counted(sys.argv[1:] or list(STORIES))
    print(f"| type | {' | '.join(f'{lowest:g}' for lowest in LOWEST)} |")
    print(f"|---{'|---' * len(LOWEST)}|")
    for name in sorted(found, key=lambda row: (row != "all", row)):
        cells = (":".join(map(str, found[name][lowest])) for lowest in LOWEST)
        print(f"| {name} | {' | '.join(cells)} |")


if __name__ == "__main__":
    _main()
