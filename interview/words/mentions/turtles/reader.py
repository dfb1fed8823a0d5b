"""What is told of turtles, bound to those it is told of: by distance, order and agreement."""

from __future__ import annotations

from collections.abc import Collection
from functools import partial

from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.competing import is_mended
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.amounts import Series, is_told, series_at
from interview.words.mentions.turtles.details import (
    AGE,
    LENGTH,
    MASS,
    SEX,
    Detail,
    initial_at,
    is_plural,
    is_unsure,
    other_things,
    sex_of,
    stands_alone,
)
from interview.words.mentions.turtles.group import Group
from interview.words.mentions.turtles.kinds import KIND
from interview.words.mentions.turtles.mention import Mention
from interview.words.mentions.turtles.roster import Roster

__all__ = ["Reader"]

_list = partial(known_words, "animals")

_ALIKE = 3.0
"""How many times as long one turtle may be as the one told before, for a number without unit."""
_OF = ("of", "at", "with", "are", "about", "around", "measure", "measuring", "weigh", "weighing")
"""Between several turtles and the one amount of each."""


class Reader:
    """Goes through sentences and tells the roster's turtles what is said of them."""

    def __init__(self, roster: Roster) -> None:
        self._roster = roster
        self._focus: Group | None = None
        """Whom the words are about now; None where they are about something else."""
        self._scope, self._unit, self._size, self._years = "", "", 0.0, False
        self._last: tuple[Group, str] | None = None
        self.covered: dict[int, set[int]] = {}
        """Of each sentence, by its id, the words that were read."""

    def read(
        self, sentence: Sentence, mentions: Collection[Mention], goes_on: bool = False
    ) -> bool:
        """Read a sentence, which may go on about those before; whether it told anything."""
        begun = {one.first: one for one in mentions}
        self._focus = self._roster.spoken_of() if goes_on else None
        self._scope, self._last = "", None
        at, told = 0, False
        covered = self.covered.setdefault(id(sentence), set())
        while at < len(sentence.words):
            if (mention := begun.get(at)) and mention.is_compared:
                mention.is_met = self._roster.meet(mention, self._focus) is not None
                covered.update(range(mention.first, mention.end))
                at = mention.end
                continue
            if mention:
                self._focus = self._roster.meet(mention, self._focus)
                mention.is_met = self._focus is not None
                keeps = self._focus is not None and self._focus.many and not mention.told
                self._scope = self._scope if keeps else ""
                for one in mention.told.get(LENGTH, ()):
                    part = sentence.parts[one.at]
                    self._unit, self._size = label(part.unit or ""), part.value
                if self._focus is not None:
                    covered.update(range(mention.first, mention.end))
                at, told = mention.end, told or self._focus is not None
                continue
            if _is_added(sentence, at):
                self._focus = None
            step = self._step(sentence, at) if self._focus is not None else 1
            if not step:
                self._focus = None
            if self._focus is not None:
                covered.update(range(at, at + step))
            told = told or bool(step and self._last)
            at += max(1, step)
        return told

    def _step(self, sentence: Sentence, at: int) -> int:
        """How many words were read; none where they are about something else."""
        word = sentence.words[at]
        if (sex := sex_of(word)) or (sex := initial_at(sentence, at)):
            return int(self._sex(sex, sentence, at))
        if word in ("<length>", "<lengths>", "<duration>", "<mass>", "<number>"):
            return self._amount(sentence, at)
        if word == ",":
            self._scope = ""
        if word in _list("every"):
            if sentence.word(at - 1)[:1] == "<" or sentence.word(at - 1) in ("length", "long"):
                self._spread()
            self._scope = word
            group = self._focus
            if word == "both" and group is not None and group.many and group.count is None:
                group.count = 2
            return 1
        return 0 if word in other_things() or (word[:1] == "<" and word != "<kind>") else 1

    def _sex(self, sex: str, sentence: Sentence, at: int) -> bool:
        word, group = sentence.words[at], self._focus
        assert group is not None
        if sentence.word(at + 1) in _list("any"):
            return False
        if word in _list("people_too") and not stands_alone(sentence, at) and not group.called:
            return True
        if is_unsure(sentence, at) or (
            sex != "unknown" and not {at - 2, at - 1}.isdisjoint(sentence.denials)
        ):
            return True
        if group.many and (sex == "unknown" or is_plural(sentence, at)):
            self._scope = self._scope or "each"
        self._tell(SEX, [Detail(sex, sentence, at)])
        return True

    def _amount(self, sentence: Sentence, at: int) -> int:
        before = sentence.word(at - 1)
        if sentence.parts[at].said == "one" and (sex_of(before) or before in _list("any") | {KIND}):
            return 1  # the female one
        series = series_at(sentence, at, self._unit or _unit_behind(sentence, at))
        if not series.details:
            return 0  # a count of what follows
        name = series.name or self._meant(series, sentence, at)
        if not name:
            return int(not series.name and series.values[0] == 1)  # just the one
        shown = series.details
        if not series.name and name == AGE:
            shown = [_in_years(sentence, one.at) for one in shown]
        count = len(shown)
        if count > 1 and not self._can_take(name, count, sentence.word(at - 1)):
            whole = self._focus.count if self._focus and self._focus.many else 1
            lengths = sentence.words[at] == "<lengths>"
            if whole is not None and whole < count and (whole > 1 or lengths):
                return 0
            count = count if whole is not None and whole > count else 1
            if sentence.words[at] == "<number>" and sentence.word(series.ends[0]) == ",":
                if sentence.word(at - 1) not in ("of", "age", "aged"):
                    return 1
                name = AGE  # a girl of nine, 12 cm
                shown = [_in_years(sentence, at)]
        end = series.ends[count - 1]
        part = sentence.parts[at]
        is_one = part.text not in ("<lengths>", "<number>")
        if is_one and (part.sides or not of_a_turtle(name, part.value, part.unit)):
            return int(name == LENGTH)
        if (series.name or name == LENGTH) and not is_told(name, sentence, at, end, self._scope):
            return 0
        if name == LENGTH:
            self._unit, self._size = series.unit or self._unit, series.values[count - 1]
        if name == AGE and "y" in series.unit:
            self._years = True
        group = self._focus
        assert group is not None
        direct = name == AGE or before in _OF or before in _list("shell")
        known = group.count is not None or group.first.head != "kind" or group.number > 1
        whole = (
            known and group.many and name != MASS and not group.told.get(name) and not group.members
        )
        listed = (
            sentence.word(end) in (",", "and") and sentence.word(end + 1) == part.text != "<number>"
        )
        if len(shown) == 1 and direct and whole and not listed:
            self._scope = self._scope or "each"
        if not self._tell(name, shown[:count]):
            return 0
        return end - at

    def _meant(self, series: Series, sentence: Sentence, at: int) -> str:
        """What bare numbers are: lengths behind lengths, ages behind ages; "" for neither."""
        group = self._focus
        assert group is not None
        before, value = sentence.word(at - 1), series.values[0]
        if sentence.word(series.ends[-1]) not in _list("after_number") or is_mended(
            sentence, series.ends[-1]
        ):
            return ""
        is_age = before in _list("aged") and sentence.word(at - 2) != "at"
        has_length = not group.takes(LENGTH) or group.is_told_each(LENGTH)
        if before in ("is", "s") and LENGTH in group.told and group.takes(AGE) and group.called:
            return AGE
        if self._years and not series.unit and group.takes(AGE):
            return AGE
        first = group.first
        if (
            has_length
            and not self._years
            and "old" in first.sentence.words[first.first : first.end]
        ):
            return AGE
        if is_age or (has_length and group.takes(AGE) and self._years):
            return AGE
        if value == 1 or not series.unit or (has_length and not group.many):
            return ""
        low, high = self._size / _ALIKE, self._size * _ALIKE
        return LENGTH if not self._size or low <= value <= high else ""

    def _can_take(self, name: str, more: int, before: str) -> bool:
        taker = self._taker(name, more)
        return taker is not None and (taker is self._focus or before not in _OF)

    def _taker(self, name: str, more: int) -> Group | None:
        """Who takes so many at once: those spoken of, or all that they are of."""
        group = self._focus
        while group is not None:
            fits = group.is_several and (group.count is None or group.number == more)
            if fits and (not group.told.get(name) or group.takes(name, more)):
                return group
            group = group.above
        return None

    def _tell(self, name: str, details: list[Detail]) -> bool:
        """Tell those spoken of, or all where a word says so; whether anybody takes it."""
        scope, self._scope = self._scope, ""
        group = self._focus
        assert group is not None
        if scope and len(details) == 1:
            while group.above is not None and (not group.many or scope == "all"):
                if not group.above.is_several:
                    break
                group = group.above
            group.tell_each(name, details[0])
            self._last = group, name
            return True
        if len(details) > 1:
            taker = self._taker(name, len(details))
            if taker is None and (group.count or 0) > len(details) + len(group.told.get(name, ())):
                taker = group
            if taker is None:
                return False
            taker.tell(name, details)
            self._last = taker, name
            return True
        if not group.takes(name):
            above = group.above
            if above is None or not (above.many and above.is_open()) or group.called:
                if not group.many:
                    group.tell(name, details)  # then neither is sure
                return False
            group = self._focus = self._roster.imply(above, group)
        group.tell(name, details)
        self._last = group, name
        return True

    def _spread(self) -> None:
        """What was told last is that of each: about 5 inches each."""
        if self._last is None:
            return
        group, name = self._last
        told = group.told.get(name, [])
        if group.many and len(told) == 1:
            group.tell_each(name, told.pop())
            del group.told[name]


def _in_years(sentence: Sentence, at: int) -> Detail:
    return Detail(f"{sentence.parts[at].said} years", sentence, at)


def _unit_behind(sentence: Sentence, at: int) -> str:
    """The unit of the first length behind bare numbers: two females of 20 and a male of 12 cm."""
    before = sentence.word(at - 1)
    if before not in {"of", "with", "at", "is", "<kind>"} | _list("ranks") and not sex_of(before):
        return ""
    behind = range(at + 1, len(sentence.words))
    found = next((n for n in behind if sentence.words[n] in ("<length>", "<lengths>")), None)
    return series_at(sentence, found).unit if found is not None else ""


def _is_added(sentence: Sentence, at: int) -> bool:
    """Whether it goes on with others, or with what was; another male is only a male as well."""
    told = sentence.words[at] == "another" and sentence.word(at - 1) == ","
    return sentence.words[at] in _list("added") and not (told and sex_of(sentence.word(at + 1)))
