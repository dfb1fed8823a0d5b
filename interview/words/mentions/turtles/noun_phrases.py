"""Turtles mentioned in a sentence: by a kind, a sex, a rank among several, a name."""

from __future__ import annotations

import re
from collections.abc import Collection
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.counts import count_in_front
from interview.words.mentions.turtles.details import (
    AGE,
    LENGTH,
    SEX,
    Detail,
    initial_at,
    is_plural,
    is_shell,
    is_unsure,
    marked_at,
    other_things,
    pronoun_of,
    sex_of,
    stands_alone,
)
from interview.words.mentions.turtles.kinds import KIND
from interview.words.mentions.turtles.mention import (
    Mention,
    Unclear,
    is_compared,
    is_doubtful,
    is_of_a_kind,
    is_whole,
    looks_like,
    whole,
)

__all__ = ["begins", "mentions_in"]

_list = partial(known_words, "animals")

_LABEL = 2
"""Words of what tells one turtle from another: turtle 2."""
_COUNTS = re.compile(r" (?:theres )?<number> of (?:th)?em ")
"""A sentence that only counts them."""
_INITIALS = {"f": "female", "m": "male"}
_BEFORE_AMOUNT = frozenset({"of", "at", "with", "is", "are", "s", "has", "have", "measures"})
_OF_PEOPLE = frozenset({"from", "off", "by", "my", "our", "to", "for"})
"""Before a girl who is no turtle."""
_OFFERED = 7
"""Words to another kind that may be offered instead."""
_BEFORE_ONE = (",", "and", "is")


def mentions_in(
    sentence: Sentence, off: Collection[int], names: Collection[str] = ()
) -> list[Mention]:
    """The turtles a sentence speaks of; `off` are words near wishes, which don't count.

    Raises Unclear where it is open how many or which are meant.
    """
    if _COUNTS.fullmatch(sentence.line):
        at = sentence.words.index("<number>")
        count = whole(sentence.parts[at])
        return [Mention(sentence, at, "turtle", count > 1, at, at + 1, count=count)]
    found: list[Mention] = []
    end, label = 0, _label(sentence)
    for at in range(len(sentence.words)):
        if at in off or at < end or (label and at < _LABEL):
            continue
        mention = _mention_at(sentence, at, label, names)
        if mention is None or (mention.rank == "one" and at == end and end):
            continue  # the red-eared one is 12 cm
        if mention.first < end and mention.head != "kind":
            continue
        if found and mention.first < end and mention.first <= found[-1].first:
            mention.told = {**found.pop().told, **mention.told}  # four girls, all sliders
            end = found[-1].end if found else 0
        mention.first = max(mention.first, end)
        if mention.head in ("kind", "turtle"):
            _doubt(mention)
        end = mention.end
        found.append(mention)
    return found


def _mention_at(sentence: Sentence, at: int, label: str, names: Collection[str]) -> Mention | None:
    word, part, after = sentence.words[at], sentence.parts[at], sentence.word(at + 1)
    if part.kind == "part" and sentence.word(at - 1) == "the":
        word = part.said.casefold()  # the third
    if word == KIND or word in _list("any"):
        if after in _list("not_one") | {"<trade>"} or sentence.is_denied(at, at + 1):
            return None
        return _of_turtles(sentence, at, label)
    if marked := marked_at(sentence, at):
        sex = "male" if marked[2] in "mM" else "female"
        mention = Mention(sentence, at, "sex", int(marked[1]) > 1, at, at + 1)
        mention.count, mention.told = int(marked[1]), {SEX: [Detail(sex, sentence, at)]}
        return mention
    if sex_of(word) in ("female", "male"):
        return _of_a_sex(sentence, at)
    if word in _list("ranks") | {"others", "rest"} and after != "than":
        return _ranked(sentence, at, word)
    if part.kind == "number" and _is_some(sentence, at):
        return Mention(
            sentence, at, "rank", part.value > 1, at, at + 1, count=int(part.value), rank="one"
        )
    if _is_name(sentence, at, names):
        return Mention(sentence, at, "name", False, at, at + 1, count=1, called=word)
    if word in _list("it") and pronoun_of(word):
        end = at + 1 + (after in _list("any"))  # she-turtle
        return Mention(sentence, at, "pronoun", False, at, end, called=pronoun_of(word))
    return None


def _of_turtles(sentence: Sentence, at: int, label: str) -> Mention | None:
    word, part = sentence.words[at], sentence.parts[at]
    many = part.look == "many" if word == KIND else word.endswith("s") and part.look != "owner"
    head, kind = ("kind", part.said) if word == KIND else ("turtle", "")
    mention = Mention(sentence, at, head, many, at, at + 1, kind)
    mention.called = label if word == KIND else ""
    before = read_before(mention)
    mention.first = before + 1
    if not count_in_front(mention, before):
        return None
    mention.is_compared = is_compared(sentence.word, mention.first, mention.end)
    if mention.is_compared and not mention.definite:
        return None  # smaller than a slider
    if mention.kind and SEX not in mention.told:
        _read_sex_behind(mention)
    while sentence.word(mention.end) in _list("young"):
        mention.end += 1
    return mention


def _read_sex_behind(mention: Mention) -> None:
    """Take the sex right behind a kind: a slider female, cooter m 22 cm."""
    sentence, at = mention.sentence, mention.end
    sex = sex_of(sentence.word(at))
    if not sex and sentence.word(at) and not mention.look_many:
        sex = initial_at(sentence, at)
    counted = mention.many and mention.count is None
    if sex not in ("female", "male") or is_unsure(sentence, at):
        return
    apart = mention.look_many and _tells_an_amount(sentence, at)  # sliders, females at 9
    if (mention.many or mention.count) and not apart:
        mention.told[SEX] = [Detail(sex, sentence, at)]
        mention.end += 1
        if is_plural(sentence, at) and not counted and mention.definite and mention.count == 1:
            mention.many, mention.count = True, None


def _doubt(mention: Mention) -> None:
    """Doubt the kind where it is only thought to be that, and everything where it is the count."""
    sentence, at = mention.sentence, mention.at
    alternative = "or" in (sentence.word(mention.first - 1), sentence.word(at + 1))
    if alternative or _is_one_of_two(sentence, at) or _counts_again(mention):
        raise Unclear
    if looks_like(sentence.word, mention.first):
        mention.is_guess = True
    if sentence.is_doubted(mention.first, at + 1):
        mention.is_guess = _is_guessed(mention)
        if not mention.is_guess:
            raise Unclear


def _is_one_of_two(sentence: Sentence, at: int) -> bool:
    """Whether another kind is offered for it: a stinkpot I think, or maybe a mud turtle."""
    words = sentence.words
    near = [n for n, word in enumerate(words) if word == KIND and 0 < abs(n - at) <= _OFFERED]
    return words[at] == KIND and any("or" in words[min(n, at) : max(n, at)] for n in near)


def _is_guessed(mention: Mention) -> bool:
    """Whether only the kind is doubted: two turtles, sliders I think; probably a map."""
    sentence, end = mention.sentence, mention.end + (mention.sentence.word(mention.end) == ",")
    if not mention.kind or not sentence.known.isdisjoint(("kind", "sort", "type")):
        return False
    thought = sentence.word(end) == "i" and sentence.word(end + 1) in known_words("doubts")
    around = (sentence.word(end), sentence.word(mention.first - 1))
    return thought or not _list("likely").isdisjoint(around)


def _counts_again(mention: Mention) -> bool:
    """Whether another number is offered right behind: one turtle, maybe two."""
    sentence, at = mention.sentence, mention.end + (mention.sentence.word(mention.end) == ",")
    doubts = known_words("doubts")
    doubted = sentence.word(at) in doubts
    at += doubted
    if sentence.word(at) != "<number>" or sex_of(sentence.word(at + 1)):
        return False  # two sliders, probably one male and one female
    return doubted or not doubts.isdisjoint(sentence.parts[at].said.casefold().split())


def _label(sentence: Sentence) -> str:
    """The letter or number of a turtle that a sentence begins with: turtle B: a stinkpot."""
    word, after = sentence.word(0), sentence.word(1)
    number = sentence.parts[1].said if after == "<number>" else after
    labels = word in _list("any") and not word.endswith("s") and KIND in sentence.known
    labels = labels and sentence.word(2) != "x"
    return (
        number if labels and (number.isdecimal() or (len(number) == 1 and number.isalpha())) else ""
    )


def _of_a_sex(sentence: Sentence, at: int) -> Mention | None:
    """A female, two big girls, males at 5; None where the word only says what somebody is."""
    word, after = sentence.words[at], sentence.word(at + 1)
    kind = sentence.word(at - 1) == KIND and sentence.parts[at - 1].look != "many"
    if kind or after in _list("any") | {KIND} or sentence.word(at - 1) == "as":
        return None
    mention = Mention(sentence, at, "sex", is_plural(sentence, at), at, at + 1)
    here = read_before(mention)
    mention.told[SEX] = [Detail(sex_of(word), sentence, at)]
    before, part = sentence.word(here), sentence.parts[here] if here >= 0 else None
    told = LENGTH in mention.told or _tells_an_amount(sentence, at)
    if mention.many and sentence.word(at + 1) == "<number>" and _tells_an_amount(sentence, at + 1):
        part = sentence.parts[at + 1]
        if is_whole(part) and sentence.word(at + 2) in _BEFORE_AMOUNT:  # boys, two at 10 cm
            mention.count, mention.end = int(part.value), at + 2
            return mention if mention.count > 1 else None
    if before == "<number>" and part and not part.sides:
        if not is_whole(part) or is_doubtful(part):
            return None
        mention.count, mention.many, mention.first = whole(part), part.value > 1, here
        if sentence.word(here - 1) == "other":
            mention.rank, mention.first = "other", here - 1
    elif before in _list("one") | {"other"} and here >= 0:
        mention.definite = before in _list("definite") | _list("owned") | {"other"}
        mention.count, mention.first = None if mention.many else 1, here
    elif told and at - here == 1 and before not in _list("every"):
        mention.definite, mention.count = not mention.many, None if mention.many else 1
    else:
        return None
    alone = stands_alone(sentence, at) and sentence.word(here - 1) in _BEFORE_ONE
    if word in _list("people_too") and not (told or alone or before == "<number>"):
        return None
    near = {mention.first - 1, mention.first - 2}
    if not near.isdisjoint(sentence.denials) or (not told and sentence.is_denied(at, at + 1)):
        return None
    if is_unsure(sentence, at):
        del mention.told[SEX]
    if before in _OF_PEOPLE or (here > 0 and sentence.word(here - 1) in _OF_PEOPLE):
        return None if not told else mention
    return mention


def _tells_an_amount(sentence: Sentence, at: int) -> bool:
    """Whether an amount follows that may be a turtle's: the male's 5; two boys at 10 cm."""
    after = at + 1
    while sentence.word(after) in _BEFORE_AMOUNT | {"is", "about", "just", "only"}:
        after += 1
        if after > at + 3:
            return False
    return sentence.word(after) in ("<length>", "<lengths>", "<number>", "<mass>", "<duration>")


def _ranked(sentence: Sentence, at: int, word: str) -> Mention | None:
    """The other, the biggest one, other two, the rest."""
    after = sentence.word(at + 1)
    if after == KIND or sex_of(after) or after in _list("any"):
        return None
    mention = Mention(sentence, at, "rank", False, at, at + 1, count=1, definite=True, rank=word)
    if word in ("others", "rest") and sentence.parts[at].look != "owner":
        mention.count, mention.many = None, True
    elif after == "<number>" and sentence.parts[at + 1].value == int(sentence.parts[at + 1].value):
        one = sentence.parts[at + 1].said.casefold() == "one"
        if one or sentence.word(at + 2) not in _list("parts"):
            mention.count, mention.end = int(sentence.parts[at + 1].value), at + 2
            mention.many = mention.count > 1
    return mention


def _is_some(sentence: Sentence, at: int) -> bool:
    """Whether a number counts some of them: one is, two of them."""
    part, after, behind = sentence.parts[at], sentence.word(at + 1), sentence.word(at + 2)
    if sentence.word(at - 1) in _list("every") or part.sides or not is_whole(part):
        return False
    if after == "<length>" and (sex_of(behind) or behind not in _list("after_number")):
        return False  # one 5-inch musk
    return not is_doubtful(part) and (
        after in _list("counted_on") or (after == "of" and behind in _list("of_them"))
    )


def _is_name(sentence: Sentence, at: int, names: Collection[str]) -> bool:
    """Whether a word is what a turtle is called."""
    word, after = sentence.words[at], sentence.word(at + 1)
    if word in names:
        return True
    if sex_of(word) or not (
        sentence.parts[at].look in ("name", "owner") or (at == 0 and begins(sentence))
    ):
        return False
    stands = sentence.word(at - 1) in _list("before_name") and after in _list("after_name")
    stands = stands or is_of_a_kind(sentence, at)  # we have Bo, a slider
    nobody = known_words("fillers") | known_words("denials") | {"everything", "something"}
    return stands and word not in other_things() | nobody


def begins(sentence: Sentence) -> bool:
    """Whether a sentence begins with somebody who is something: Otis is 5 cm; Otis, a slider."""
    after = sentence.word(1)
    told = after == "," and any(map(sex_of, sentence.words[2:5]))
    told = told or is_of_a_kind(sentence, 0)
    return after in ("is", "s") or told


def read_before(mention: Mention) -> int:
    """Take what describes the turtles in front of them; where that begins."""
    sentence, at = mention.sentence, mention.at - 1
    told = mention.told
    while at >= 0:
        word, part = sentence.words[at], sentence.parts[at]
        if word == "<length>" and LENGTH not in told and is_shell(part):
            told[LENGTH] = [Detail(part.said, sentence, at)]
        elif sex_of(word) and SEX not in told:
            told[SEX] = [Detail(sex_of(word), sentence, at)]
        elif word in _INITIALS and at == mention.at - 1 and mention.kind and SEX not in told:
            told[SEX] = [Detail(_INITIALS[word], sentence, at)]
        elif word == "," and sex_of(sentence.word(at - 1)) and SEX not in told and mention.many:
            told[SEX] = [Detail(sex_of(sentence.word(at - 1)), sentence, at - 1)]
            return at  # two females, map turtles
        elif word == "<duration>" and _is_age(sentence, at, mention.at) and AGE not in told:
            if not part.sides and of_a_turtle(AGE, part.value, part.unit):
                told[AGE] = [Detail(part.said, sentence, at)]
        elif word in _list("ranks") and not mention.rank:
            mention.rank = word
        elif not (word == "old" and sentence.word(at - 1) == "<duration>") and (
            word not in _list("before")
        ):
            break
        at -= 1
    return at


def _is_age(sentence: Sentence, at: int, head: int) -> bool:
    """A nine-year-old slider, two eight-year Reeves'."""
    return "old" in sentence.words[at + 1 : head] or "-" in sentence.parts[at].said
