"""What is told of each turtle, in order: two girls 18 and 20 cm, and a male of 12 cm."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from functools import cache, partial

from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.competing import is_mended
from interview.words.mentions.parts import Part
from interview.words.mentions.scope import Sentence
from interview.words.mentions.turtles.details import Detail, initial_at, is_shell, sex_of
from interview.words.mentions.turtles.members import Member, numbered

__all__ = ["Individuals"]

_list = partial(known_words, "animals")

_AHEAD = 3
"""Words from a count to the sex it counts: two little girls."""
_BEFORE_ONE = (",", "and", "is")
_OF_PEOPLE = frozenset({"from", "off", "by", "my", "our", "to", "for"})
"""Before a girl who is no turtle."""
_SEX, _LENGTH, _AGE, _MASS = "sex", "carapace_length", "age", "mass"
_MARKED = re.compile(r"(\d+) ?([mf])", re.I)
"""Males and females as a shop writes them, 2 m and 1 f, which are no metres."""


class Individuals:
    """Sexes, lengths, ages and masses as they are told, of each turtle and of every one.

    Kept twice: in the order they are told, for lists that go through all of them (a male and a
    female, 9 and 10 cm), and by the turtles they stand with.
    """

    def __init__(
        self, lengths: Sequence[Detail], sexes: Sequence[Detail], *, alone: bool = False
    ) -> None:
        """With what stands in front of the turtles, which one by itself is of all of them.

        Args:
            lengths: of the shells
            sexes: likewise
            alone: whether it is one turtle, so that a second length is another's
        """
        before: dict[str, list[Detail]] = {_SEX: [*sexes], _LENGTH: [*lengths], _AGE: [], _MASS: []}
        self._told = {name: told if len(told) > 1 else [] for name, told in before.items()}
        self._every = {name: told[0] for name, told in before.items() if len(told) == 1}
        self._alone = alone
        self._members: list[Member] = []
        self._one: Member | None = None
        self._through: set[str] = set()
        """What is told in a list that goes through all of them."""
        self._scope, self._unit, self._age_unit, self._last = "", "", "", ""

    @property
    def told(self) -> int:
        """How many turtles they are told of, as far as it is told alike."""
        counts = {len(told) for told in self._told.values() if len(told) > 1}
        if len(counts) == 1:
            return counts.pop()
        return sum(one.many for one in self._members if one.told)

    @property
    def names(self) -> Collection[str]:
        """What they are called."""
        return {one.called for one in self._members if one.called}

    def comes_to(self, count: int) -> bool:
        """Whether the turtles told of one by one are as many as there are."""
        return bool(numbered(self._members, count))

    def details(self, count: int) -> Iterator[tuple[int, str, Detail]]:
        """Which turtle, which question and what was told of it; nothing told of some alone."""
        members = numbered(self._members, count)
        counted = [one for _, one in members]
        aside = {n for one in self._members if one not in counted for n in one.told} | self._through
        for name, told in self._told.items():
            if members and name not in aside and all(one.fits(name) for one in counted):
                for first, one in members:
                    yield from ((first + at, name, detail) for at, detail in one.each(name))
            elif len(told) == count:
                yield from ((animal, name, one) for animal, one in enumerate(told))
            elif len(told) == 1 and self._is_of_all(name):
                yield from ((animal, name, told[0]) for animal in range(count))
            if not told and name in self._every:
                yield from ((animal, name, self._every[name]) for animal in range(count))

    def _is_of_all(self, name: str) -> bool:
        """Whether what was told once closes what is told of them: two sliders, 8 years."""
        of_all = name == _SEX and self._told[name][0].said == "unknown"
        return of_all or (self._last == name == _AGE)

    def read(self, sentence: Sentence, first: int, limit: int) -> int:
        """Read on as long as every word is about the turtles; where the last was that told."""
        end = at = first
        while at < limit and sentence.words[at] not in _list("added"):
            self._open(sentence, at)
            tells = self._tells(sentence, at)
            if tells is None:
                at = self._begun(sentence, at + 1, limit)
                continue
            at += 1
            end = at if tells else end
        return end

    def _begun(self, sentence: Sentence, first: int, limit: int) -> int:
        """Where turtles are taken up again behind other words: …, two girls 18 and 20 cm."""
        return next((at for at in range(first, limit) if self._begins(sentence, at)), limit)

    def _begins(self, sentence: Sentence, at: int) -> bool:
        word, before = sentence.words[at], sentence.words[at - 1]
        if sex_of(word) and word.endswith("s") and before in _BEFORE_ONE:
            return sentence.word(at + 1) in ("at", "of", "<lengths>", "<length>", "<number>")
        counts = word == "<number>" or (word in _list("one_of_them") and before in _BEFORE_ONE)
        return counts and self._sex_ahead(sentence, at)

    def _open(self, sentence: Sentence, at: int) -> None:
        """Begin with the next turtles where a count, a rank or a name says so."""
        word, part, after = sentence.words[at], sentence.parts[at], sentence.word(at + 1)
        fresh = self._one is not None and not self._one.told
        if word in _list("rest") or (word == "rest" and sentence.word(at - 1) == "the"):
            self._begin(Member(1 if word == "other" else 0, is_rest=word != "other"))
        elif word in _list("ranks") or word == "ones":
            self._begin(Member(1))
        elif word == "<number>" and not part.sides and part.value == int(part.value):
            others = sentence.word(at - 1) in ("other", "others") and after not in _list("parts")
            if self._one and fresh and others:
                self._one.count, self._one.is_rest = int(part.value), False
            elif self._sex_ahead(sentence, at) or _is_some(sentence, at):
                self._begin(Member(int(part.value)))
        elif word in _list("one_of_them") and self._sex_ahead(sentence, at) and not fresh:
            self._begin(self._spoken_of(word, sex_of(after)) or Member(1))
        elif self._is_name(sentence, at):
            known = (one for one in self._members if one.called == word)
            self._begin(next(known, None) or Member(1, called=word))

    def _begin(self, member: Member) -> None:
        if not any(one is member for one in self._members):
            self._members.append(member)
        self._one = member

    def _spoken_of(self, word: str, sex: str) -> Member | None:
        """The only one of its sex told of before: the male."""
        own = [m for m in self._members if m.told.get(_SEX) and m.told[_SEX][0].said == sex]
        return own[0] if word == "the" and len(own) == 1 else None

    def _is_name(self, sentence: Sentence, at: int) -> bool:
        word, after = sentence.words[at], sentence.word(at + 1)
        if word in self.names:
            return True
        is_name = sentence.parts[at].look == "name" and word not in _others()
        between = sentence.word(at - 1) in _list("before_name") and after in _list("after_name")
        return is_name and between and not sex_of(word)

    def _sex_ahead(self, sentence: Sentence, at: int) -> bool:
        for here in range(at + 1, at + 1 + _AHEAD):
            if sex_of(sentence.word(here)):
                return sentence.word(here + 1) not in _list("any")
            if sentence.word(here) not in _list("before") | {"<length>", "<kind>"}:
                return False
        return False

    def _tells(self, sentence: Sentence, at: int) -> bool | None:
        """Whether a word tells something; None where it is about something else."""
        word, part = sentence.words[at], sentence.parts[at]
        if (sex := sex_of(word)) or (sex := initial_at(sentence, at)):
            return self._take_sex(sex, sentence, at)
        if marked := _MARKED.fullmatch(part.said):
            return self._take_marked(marked, sentence, at)
        if word in ("<length>", "<lengths>"):
            return self._take_lengths(part, sentence, at)
        if word == "<number>":
            return self._take_number(part, sentence, at)
        if word == "<duration>":
            is_age = not part.sides and of_a_turtle(_AGE, part.value, part.unit)
            before, after = sentence.word(at - 1), sentence.word(at + 1)
            stands = before in _list("before_age") or sex_of(before) or before[:1] == "<"
            stands = stands and (self._scope or after in _list("after_age")) and after != "ago"
            doubted = sentence.is_doubted(at, at + 1)
            told = [Detail(part.said, sentence, at)] if is_age and stands and not doubted else []
            self._age_unit = "years" if told and part.unit == "year" else self._age_unit
            return self._take(_AGE, told)
        if word == "<mass>":
            is_mass = not part.sides and of_a_turtle(_MASS, part.value, part.unit)
            before = sentence.word(at - 1)
            weighs = before in _list("before_age") | {"weighs", "weighing"} or before[:1] == "<"
            sure = is_mass and weighs and not is_mended(sentence, at + 1)
            return self._take(_MASS, [Detail(part.said, sentence, at)] if sure else [])
        if word == ",":
            self._scope = ""
        if word in _list("every"):
            self._scope = word
            if sentence.word(at - 1) in ("<length>", "length", "long"):
                self._spread(_LENGTH)
            return False
        return None if word in _others() or (word[:1] == "<" and word != "<kind>") else False

    def _take_sex(self, sex: str, sentence: Sentence, at: int) -> bool | None:
        word = sentence.words[at]
        if sentence.word(at + 1) in _list("any"):
            return None
        if not _OF_PEOPLE.isdisjoint(sentence.words[max(0, at - 2) : at]):
            return False
        if word in _list("people_too") and not _stands_alone(sentence, at):
            return False
        if self._one and self._one is self._spoken_of(sentence.word(at - 1), sex):
            return False
        if sex == "unknown" and not self._told[_SEX]:
            self._scope = "all"
        elif not self._scope and (self._one is None or self._one.told.get(_SEX)):
            self._begin(Member(0 if word.endswith("s") and len(word) > 1 else 1))
        times = self._one.count if self._one and not self._scope else 1
        told = [] if sentence.is_doubted(at, at + 1) else [Detail(sex, sentence, at)]
        return self._take(_SEX, told, max(1, times)) is not None

    def _take_marked(self, marked: re.Match[str], sentence: Sentence, at: int) -> bool:
        count = int(marked[1])
        self._begin(Member(count))
        sex = "male" if marked[2].casefold() == "m" else "female"
        return bool(self._take(_SEX, [Detail(sex, sentence, at)], count))

    def _take_lengths(self, part: Part, sentence: Sentence, at: int) -> bool | None:
        sides = part.sides if part.text == "<lengths>" else () if part.sides else (part,)
        shells = [one for one in sides if is_shell(one)]
        self._unit = label(part.unit or (shells[0].unit if shells else "") or "")
        told = [Detail(one.said, sentence, at) for one in shells]
        if not _begins_length(sentence, at):
            return False
        if self._one and self._one.told and self._sex_ahead(sentence, at):
            self._begin(Member(1, is_implied=self._one.is_implied))
        return self._take(_LENGTH, told) if _ends_length(sentence, at) else None

    def _take_number(self, part: Part, sentence: Sentence, at: int) -> bool | None:
        """A count of what follows; a length or an age without its unit: 14 cm, the smallest 8."""
        if self._one and not self._one.told and self._one.count == part.value:
            return False
        listed = sentence.word(at + 1) in ("and", ",") and sentence.word(at + 2) == "<duration>"
        if listed and sentence.word(at - 1) in _list("before_age"):
            unit = label(sentence.parts[at + 2].unit or "")
            return self._take(_AGE, [Detail(f"{part.said} {unit}", sentence, at)])
        if part.value == 1 or _is_of_breeders(part):
            return False
        if self._told[_LENGTH] and self._unit and not self._scope and _ends_number(sentence, at):
            one, before = self._one, sentence.word(at - 1)
            if one and one.told.get(_LENGTH) and self._age_unit and before == "and":
                return self._take(_AGE, [Detail(f"{part.said} {self._age_unit}", sentence, at)])
            return self._take(_LENGTH, [Detail(f"{part.said} {self._unit}", sentence, at)])
        return None

    def _take(self, name: str, told: list[Detail], times: int = 1) -> bool | None:
        """Add what was told, of both or of every turtle where a word says so."""
        scope, self._scope = self._scope, ""
        one = self._one
        if not told:
            return None
        self._last = name
        if scope and len(told) == 1:
            if one is not None and one.count > 1 and scope != "all":
                one.add(name, told)
                self._told[name] += told * one.count
            elif scope == "both":
                self._told[name] += told * 2
                self._through.add(name)
            else:
                self._every[name] = told.pop()
            return True
        again = bool(self._told[name]) or name in self._every
        self._told[name] += told * times
        if self._alone:
            return None if again else True
        self._take_of(name, told)
        return True

    def _take_of(self, name: str, told: list[Detail]) -> None:
        """Add it to the turtles it stands with; a list of all to none."""
        one = self._one
        if one is not None and one.takes(name, len(told)):
            one.add(name, told)
            return
        if len(told) > 1 and self._members:
            self._through.add(name)
            return
        for detail in told:
            self._begin(Member(1, is_implied=True))
            self._members[-1].add(name, [detail])

    def _spread(self, name: str) -> None:
        """What was told last is that of each: about 5 inches each."""
        one = self._one
        if len(self._told[name]) == 1:
            self._every[name] = self._told[name].pop()
            if one is not None and one.count < 2:
                one.told.pop(name, None)
        self._scope = ""


def _begins_length(sentence: Sentence, at: int) -> bool:
    """Whether a length follows the turtles or a word for a shell, and no deed: stands up 15 cm."""
    before = sentence.word(at - 1 - (sentence.word(at - 1) == "to"))
    return bool(sex_of(before)) or before not in _list("no_shell_behind") | _others()


def _ends_length(sentence: Sentence, at: int) -> bool:
    after = sentence.word(at + 1)
    return after not in _list("no_shell_before") | _others() and not is_mended(sentence, at + 1)


def _is_some(sentence: Sentence, at: int) -> bool:
    """Whether a number counts some of them: one is, two of them."""
    after, next_ = sentence.word(at + 1), sentence.word(at + 2)
    return after in _list("counted_on") or (after == "of" and next_ in _list("of_them"))


def _ends_number(sentence: Sentence, at: int) -> bool:
    return sentence.word(at + 1) in _list("after_number") and not is_mended(sentence, at + 1)


def _stands_alone(sentence: Sentence, at: int) -> bool:
    """Whether a lady is told as one of the turtles, and not as whom they are from."""
    before, after = sentence.word(at - 1), sentence.word(at + 1)
    if before == "<number>" or (before, after) == ("the", "is"):
        return before == "<number>" or sentence.word(at + 2)[:1] == "<"
    return before in _list("before_sex") and (after in _list("after_sex") or after[:1] == "<")


def _is_of_breeders(part: Part) -> bool:
    """Whether a number may be males and females, told before or besides: a pair, 1.1."""
    return part.said[1:2] == "." and len(part.said) == len("1.1")


@cache
def _others() -> frozenset[str]:
    """Words that name what else an amount may be of: a tank, a lamp, a child."""
    names = {**meant_by("things"), **meant_by("topics")}
    return frozenset(name for name, topic in names.items() if topic != "turtle") - _list("after")
