"""What is told of each turtle, in order: two girls 18 and 20 cm, and a male of 12 cm."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import partial

from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.competing import is_mended, is_read_again
from interview.words.mentions.nearby.shell import is_of_a_shell
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import (
    Detail,
    initial_at,
    is_shell,
    other_things,
    pronoun_of,
    sex_ahead,
    sex_of,
)
from interview.words.mentions.turtles.kinds import KIND
from interview.words.mentions.turtles.members import Member, Members

__all__ = ["Individuals"]

_list = partial(known_words, "animals")

_BEFORE_ONE = (",", "and", "is")
_OF_PEOPLE = frozenset({"from", "off", "by", "my", "our", "to", "for"})
"""Before a girl who is no turtle."""
_SEX, _LENGTH, _AGE, _MASS = "sex", "carapace_length", "age", "mass"
_ALIKE = 3.0
"""How many times as long one turtle may be as the one told before, for a number without unit."""
_HEDGED = 6
"""Words behind a hedged count that its hedge reaches."""
_MARKED = re.compile(r"(1?\d) ?([mf])", re.I)
"""Males and females as a shop writes them, 2 m and 1 f, which are no metres."""


class Individuals:
    """Sexes, lengths, ages and masses as they are told, of each turtle and of every one.

    Kept twice: in the order they are told, for lists that go through all of them (a male and a
    female, 9 and 10 cm), and by the turtles they stand with.
    """

    def __init__(
        self, lengths: Sequence[Detail], sexes: Sequence[Detail], alone: bool, unit: str
    ) -> None:
        """With what stands in front of the turtles, which one by itself is of all of them.

        Args:
            lengths: of the shells
            sexes: likewise
            alone: whether it is one turtle, so that a second length is another's
            unit: of the lengths told so far, in which a bare number is; "" for none
        """
        before: dict[str, list[Detail]] = {_SEX: [*sexes], _LENGTH: [*lengths], _AGE: [], _MASS: []}
        self._told = {name: told if len(told) > 1 else [] for name, told in before.items()}
        self._every = {name: told[0] for name, told in before.items() if len(told) == 1}
        self._alone, self.unit, self._members = alone, unit, Members()
        self._through: set[str] = set()
        """What is told in a list that goes through all of them."""
        self._scope, self._years, self._last, self._size = "", False, "", 0.0

    @property
    def told(self) -> int:
        """How many turtles they are told of, as far as it is told alike."""
        counts = {len(told) for told in self._told.values() if len(told) > 1}
        if len(counts) == 1:
            return counts.pop()
        return sum(one.many for one in self._members.all if one.told)

    @property
    def names(self) -> frozenset[str]:
        """What they are called."""
        return self._members.names

    def comes_to(self, count: int) -> bool:
        """Whether the turtles told of one by one are as many as there are."""
        return bool(self._members.numbered(count))

    def details(self, count: int) -> Iterator[tuple[int, str, Detail]]:
        """Which turtle, which question and what was told of it; nothing told of some alone."""
        numbered = self._members.numbered(count)
        members = [one for _, one in numbered]
        aside = self._members.through(members) | self._through
        for name, told in self._told.items():
            fits = name not in aside and all(one.fits(name) for one in members)
            if fits and any(name in one.told for one in members):
                for first, one in numbered:
                    yield from ((first + at, name, detail) for at, detail in one.each(name))
            elif len(told) == count:
                yield from ((animal, name, one) for animal, one in enumerate(told))
            elif len(told) == 1 and self._last == name == _AGE and not self._members.told:
                yield from ((animal, name, told[0]) for animal in range(count))
            if not told and name in self._every:
                yield from ((animal, name, self._every[name]) for animal in range(count))

    def read(self, sentence: Sentence, first: int, limit: int) -> int:
        """Read on as long as every word is about the turtles; where the last was that told."""
        end = at = first
        while at < limit and not _is_added(sentence, at):
            self._members.open(sentence, at)
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
        if sex_of(word) and word.endswith("s"):
            return sentence.word(at + 1) in ("at", "of", "<lengths>", "<length>", "<number>")
        if self._members.is_name(sentence, at) and sentence.word(at + 1) == ",":
            return True
        counts = word == "<number>" or (word in _list("one_of_them") and before in _BEFORE_ONE)
        return counts and bool(sex_ahead(sentence, at))

    def _tells(self, sentence: Sentence, at: int) -> bool | None:
        """Whether a word tells something; None where it is about something else."""
        word, part = sentence.words[at], sentence.parts[at]
        if (sex := sex_of(word)) or (sex := initial_at(sentence, at)):
            return self._take_sex(sex, sentence, at)
        if not self._alone and word in _list("it") and (called := pronoun_of(word)):
            return self._take_pronoun(called, sentence, at)
        if marked := _marked(sentence, at):
            self._members.begin(Member(int(marked[1])))
            sex = "male" if marked[2] in "mM" else "female"
            return self._take(_SEX, [Detail(sex, sentence, at)], int(marked[1]))
        if word in ("<length>", "<lengths>"):
            return self._take_lengths(part, sentence, at)
        if word == "<number>":
            return self._take_number(part, sentence, at)
        if word in ("<duration>", "<mass>"):
            return self._take_other(_AGE if word == "<duration>" else _MASS, sentence, at)
        if word == ",":
            self._scope = ""
        if word in _list("every"):
            self._scope = word
            if sentence.word(at - 1) in ("<length>", "length", "long"):
                self._spread(_LENGTH)
            return False
        return None if word in other_things() or (word[:1] == "<" and word != "<kind>") else False

    def _take_sex(self, sex: str, sentence: Sentence, at: int) -> bool | None:
        word, now = sentence.words[at], self._members.now
        if sentence.word(at + 1) in _list("any"):
            return None
        is_called = now is not None and now.called and not now.told  # Dolly, my girl
        if not (is_called or _OF_PEOPLE.isdisjoint(sentence.words[max(0, at - 2) : at])):
            return False
        if word in _list("people_too") and not (is_called or _stands_alone(sentence, at)):
            return False
        if sentence.word(at - 1) == "the" and now and now is self._members.only(sex):
            return False
        begun = now is not None and not now.told
        if sex == "unknown" and not (begun or self._told[_SEX]):
            self._scope = "all"
        elif not self._scope and (now is None or _SEX in now.told):
            now = self._members.begin(Member(0 if word.endswith("s") and len(word) > 1 else 1))
        times = now.count if now and not self._scope else 1
        unsure = sentence.is_doubted(at, at + 1) or _is_hedged(sentence, at)
        unsure = unsure or (sex != "unknown" and not {at - 2, at - 1}.isdisjoint(sentence.denials))
        told = [] if unsure else [Detail(sex, sentence, at)]
        return self._take(_SEX, told, max(1, times)) is not None

    def _take_pronoun(self, called: str, sentence: Sentence, at: int) -> bool | None:
        """Of a pair she is one and he the other; a name before is whom it stands for."""
        members, now = self._members, self._members.now
        if known := members.only(called):
            members.begin(known)
            return False
        if at == 0 and members.names:
            return None  # which of them, nobody can say
        if now is None or _SEX in now.told or (now.told and not now.called):
            members.begin(Member(1))
        return bool(self._take(_SEX, [Detail(called, sentence, at)]))

    def _take_lengths(self, part: Part, sentence: Sentence, at: int) -> bool | None:
        sides = part.sides if part.text == "<lengths>" else () if part.sides else (part,)
        shells = [one for one in sides if is_shell(one)]
        if not _begins_length(sentence, at):
            return False
        if shells:
            self.unit, self._size = label(shells[0].unit or ""), shells[-1].value
        now = self._members.now
        if now and now.told and sex_ahead(sentence, at):
            self._members.begin(Member(1, is_implied=now.is_implied))
        told = [Detail(one.said, sentence, at) for one in shells]
        return self._take(_LENGTH, told) if _ends_length(sentence, at) else None

    def _take_number(self, part: Part, sentence: Sentence, at: int) -> bool | None:
        """A count of what follows; a length or an age without its unit: 14 cm, the smallest 8."""
        before, after, now = sentence.word(at - 1), sentence.word(at + 1), self._members.now
        if before in _list("every") or (now and not now.told and now.count == part.value):
            return False
        if after in ("and", ",") and sentence.word(at + 2) == "<duration>":
            unit = label(sentence.parts[at + 2].unit or "")
            return self._take(_AGE, [Detail(f"{part.said} {unit}", sentence, at)])
        if part.value == 1 or (_is_of_breeders(part) and not self.unit):
            return False
        if not (_begins_length(sentence, at) and _ends_number(sentence, at)):
            return None
        listed = self._last == _AGE and before in (",", "and")
        aged = now and _LENGTH in now.told and _AGE not in now.told
        aged = aged and (self._years or (before == "is" and now in self._members.told))
        is_age = before in _list("aged") and sentence.word(at - 2) != "at"
        if is_age or (listed and self._told[_AGE]) or aged:
            self._years = True
            return self._take(_AGE, [Detail(f"{part.said} years", sentence, at)])
        told = _LENGTH in self._every or (now and not (now.is_implied or now.takes(_LENGTH, 1)))
        low, high = self._size / _ALIKE, self._size * _ALIKE
        told = told or bool(self._size and not low <= part.value <= high)
        if self.unit and not (self._scope or told):
            return self._take(_LENGTH, [Detail(f"{part.said} {self.unit}", sentence, at)])
        return None

    def _take_other(self, name: str, sentence: Sentence, at: int) -> bool | None:
        """An age or a mass."""
        part, before, after = sentence.parts[at], sentence.word(at - 1), sentence.word(at + 1)
        fits = not part.sides and of_a_turtle(name, part.value, part.unit)
        stands = before in _list(f"before_{name}") or sex_of(before) or before[:1] == "<"
        if name == _AGE:
            stands = stands or (self._scope and before not in ("since", "for"))
            stands = stands and after != "ago"
            stands = stands and bool(self._scope or after in _list("after_age"))
            stands = stands and not sentence.is_doubted(at, at + 1)
            self._years = self._years or bool(fits and stands and part.unit == "year")
        again = is_mended(sentence, at + 1) or is_read_again(sentence, at)
        sure = fits and stands and not again
        return self._take(name, [Detail(part.said, sentence, at)] if sure else [])

    def _take(self, name: str, told: list[Detail], times: int = 1) -> bool | None:
        """Add what was told, of both or of every turtle where a word says so."""
        (scope, self._scope), now = (self._scope, ""), self._members.now
        if not told:
            return None
        self._last = name
        if scope and len(told) == 1:
            if now is not None and now.count > 1 and scope != "all":
                now.told.setdefault(name, []).extend(told)
                self._told[name] += told * now.count
            elif scope == "both":
                self._told[name] += told * 2
                self._through.add(name)
            else:
                self._every[name] = told.pop()
            return True
        if self._alone and name in self._every:
            return None
        again = bool(self._told[name])
        self._told[name] += told * times
        if self._alone:
            return None if again else True
        if now is not None and now.takes(name, len(told)):
            now.told.setdefault(name, []).extend(told)
        elif len(told) > 1 and self._members.all:
            self._through.add(name)
        else:
            for detail in told:
                self._members.begin(Member(1, is_implied=True, told={name: [detail]}))
        return True

    def _spread(self, name: str) -> None:
        """What was told last is that of each: about 5 inches each."""
        now = self._members.now
        if len(self._told[name]) == 1:
            self._every[name] = self._told[name].pop()
            if now is not None and now.count < 2:
                now.told.pop(name, None)
        self._scope = ""


def _is_hedged(sentence: Sentence, at: int) -> bool:
    """Whether a count shortly before is no sure one: probably one male and one female."""
    counts = (part for part in sentence.parts[max(0, at - _HEDGED) : at] if part.kind == "number")
    return any(not known_words("doubts").isdisjoint(p.said.casefold().split()) for p in counts)


def _marked(sentence: Sentence, at: int) -> re.Match[str] | None:
    """A shop's mark; of males only beside one of females, as a tank has 2 m too."""
    marked = _MARKED.fullmatch(sentence.parts[at].said)
    if not marked or marked[2] in "fF":
        return marked
    counts = zip(sentence.parts, (*sentence.words[1:], ""), strict=True)
    others = (_MARKED.fullmatch(part.said) for part, after in counts if after != KIND)
    return marked if any(one and one[2] in "fF" for one in others) else None


def _is_added(sentence: Sentence, at: int) -> bool:
    """Whether it goes on with others, or with what was; another male is only a male as well."""
    told = sentence.words[at] == "another" and sentence.word(at - 1) == ","
    return sentence.words[at] in _list("added") and not (told and sex_of(sentence.word(at + 1)))


def _begins_length(sentence: Sentence, at: int) -> bool:
    """Whether a length follows the turtles or a word for a shell, and no deed: stands up 15 cm."""
    if not is_of_a_shell(sentence, at):
        return False
    before = sentence.word(at - 1 - (sentence.word(at - 1) == "to"))
    return bool(sex_of(before)) or before not in _list("no_shell_behind") | other_things()


def _ends_length(sentence: Sentence, at: int) -> bool:
    after = sentence.word(at + 1)
    if after == "of" and sentence.word(at + 2) in _list("shell"):
        return True
    return after not in _list("no_shell_before") | other_things() and not is_mended(
        sentence, at + 1
    )


def _ends_number(sentence: Sentence, at: int) -> bool:
    return sentence.word(at + 1) in _list("after_number") and not is_mended(sentence, at + 1)


def _stands_alone(sentence: Sentence, at: int) -> bool:
    """Whether a lady is told as one of the turtles, and not as whom they are from."""
    before, after = sentence.word(at - 1), sentence.word(at + 1)
    if before == "the":
        return after[:1] == "<" or (after == "is" and sentence.word(at + 2)[:1] == "<")
    listed = before in _list("before_sex") and (after in _list("after_sex") or after[:1] == "<")
    return listed or before == "<number>"


def _is_of_breeders(part: Part) -> bool:
    """Whether a number may be males and females, told before or besides: a pair, 1.1."""
    return part.said[1:2] == "." and len(part.said) == len("1.1")
