"""Whom a mention speaks of: turtles told of before, some of those, or others."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.turtles.details import AGE, LENGTH, MASS, SEX, Detail
from interview.words.mentions.turtles.group import Group
from interview.words.mentions.turtles.kinds import KIND
from interview.words.mentions.turtles.mention import Mention, Unclear

__all__ = ["Roster"]

_list = partial(known_words, "animals")

_STEM = 4
"""Letters by which names that aren't known are alike: a snapper is a snapping turtle."""


class Roster:
    """All turtles of a story: groups that are named, and members of each told of apart."""

    def __init__(self, kinds: Mapping[str, tuple[str, bool]], first: Mention, alone: bool) -> None:
        """With the first mention; `alone` where no turtle is named, only males and females."""
        self._kinds = kinds
        self.all = Group(first, None, many=False)
        self.alone = alone
        self.totals: set[int] = set()
        """How many there are, as told without a kind."""

    @property
    def names(self) -> frozenset[str]:
        """What they are called."""
        return frozenset(one.called for one in self._everyone() if one.called)

    def _everyone(self) -> Iterator[Group]:
        waiting = [*self.all.members]
        while waiting:
            one = waiting.pop(0)
            yield one
            waiting = [*one.members, *waiting]

    def meet(self, mention: Mention, focus: Group | None) -> Group | None:
        """Who is spoken of; None where nobody can say."""
        if mention.head == "kind":
            group = self._of_kind(mention, focus)
        elif mention.head == "turtle":
            group = self._turtles(mention)
        elif mention.head == "pronoun":
            return self._pronoun(mention, focus)
        else:
            group = self._some(mention, focus)
        if group is None:
            return None
        group.called = group.called or mention.called
        group.counted = mention if mention.is_counted else group.counted
        self._describe(group, mention)
        if mention.sentence is group.first.sentence:
            group.end = max(group.end, mention.end)
        return group

    def _describe(self, group: Group, mention: Mention) -> None:
        """What stands in front of them."""
        for name, told in mention.told.items():
            if len(told) > 1 and group.takes(name, len(told)):
                group.tell(name, told)
            elif len(told) == 1 and group.many:
                group.tell_each(name, told[0])
            elif len(told) == 1 and group.takes(name):
                group.tell(name, told)

    def imply(self, above: Group, beside: Group) -> Group:
        """One more of them, whom only what is told of it sets apart: 18 cm, female, 9 cm, male."""
        return self._add(replace_count(beside.first), above)

    def spoken_of(self) -> Group | None:
        """Of whom a sentence goes on: both are females; they are 12 and 14 cm."""
        only = self.all.members[0] if len(self.all.members) == 1 else None
        return only or (self.all if self.all.is_several else None)

    def _add(self, mention: Mention, above: Group) -> Group:
        if not above.members and above is not self.all and (above.count or mention.head == "rank"):
            self._split(above, mention)
        group = Group(mention, mention.count, mention.many, mention.kind, mention.is_guess)
        group.is_rest = mention.rank in ("others", "rest")
        group.above, group.end = above, mention.end
        group.named = mention if mention.kind else None
        above.members.append(group)
        return group

    def _split(self, above: Group, mention: Mention) -> None:
        """Tell apart whose amounts were listed before another's is: 14 cm, 12, the smallest 8."""
        for name in (LENGTH, AGE, MASS):
            told = above.told.get(name, [])
            room = above.count is None or len(told) < above.count
            if told and room and told[0].sentence is mention.sentence:
                del above.told[name]
                for one in told:
                    group = Group(replace_count(above.first), 1, many=False, above=above)
                    group.tell(name, [one])
                    above.members.append(group)
                return

    def _turtles(self, mention: Mention) -> Group | None:
        """Any turtles: how many there are, or the only one."""
        if mention.adds and mention.count:
            self.totals.add(mention.count)
            if mention.many:
                self.all.count, self.all.many = mention.count, True
                if not self.all.members:
                    self.all.first, self.all.end = mention, mention.end
                return self.all
        if mention.many:
            return self.all if self.all.many or len(self.all.members) > 1 else None
        return self._only() or (self._add(mention, self.all) if not self.all.members else None)

    def _only(self) -> Group | None:
        """The only turtle there is so far."""
        group = self.all.members[0] if len(self.all.members) == 1 else None
        return group if group is not None and not group.many else None

    def _of_kind(self, mention: Mention, focus: Group | None) -> Group | None:
        focus = None if mention.is_compared else focus  # smaller than the slider: it is none
        if mention.is_predicate and focus is not None and self._is_named(mention, focus):
            return focus
        if focus is not None and self._is_beside(mention, focus):
            return focus
        only = self._only()
        vague = only is not None and not only.kind and only.first.head == "turtle"
        if vague and mention.is_compared:
            return None
        if only is not None and vague and (mention.count is None or not mention.many):
            self._name(only, mention)
            return None if mention.many else only
        known = [one for one in self._everyone() if self._kin(one.kind, mention.kind)]
        if len(known) == 1 and known[0].is_of_a_kind and not (mention.many or mention.rank):
            known[0].be_one()  # sliders grow: my slider is 20 cm
            self._name(known[0], mention)
            return known[0]
        if len(known) == 1 and mention.many and mention.first == mention.at and not known[0].many:
            self._name(known[0], mention)  # a slider. Red ears.
        if not mention.adds:
            exact = any(one.kind and not self._is_loose(one.kind) for one in self._everyone())
            if exact and not known and self._is_loose(mention.kind):
                return None
            group = self._taken_up(mention, known)
            if group is not None:
                self._name(group, mention)
            apart = bool(mention.told) or (
                mention.rank and known and known[-1].first.sentence is mention.sentence
            )
            if group is not None or (known and not apart):
                return group
        if not self.all.members and mention.rank in _list("next") | {"other"}:
            raise Unclear
        if (above := self._set_for(mention)) is not None:
            return self._add(mention, above)
        alike = (one for one in known if self._is_same(one.kind, mention.kind))
        again = [one for one in alike if not one.above or not one.above.kind]
        if mention.adds and again and not self._is_another(mention, again):
            one = again[-1]
            if len(again) > 1 or (one.count or 1) != (mention.count or 1):
                raise Unclear
            loose = self._is_loose(one.kind) and one.kind != mention.kind
            if loose and one.first.definite and not mention.is_predicate:
                raise Unclear  # Bess the slider, then a yellow-belly
            self._name(one, mention)
            return one
        return self._shared(mention, self._add(mention, self.all))

    def _is_named(self, mention: Mention, focus: Group) -> bool:
        """Give those spoken of the kind that they are said to be: Olga is a slider."""
        group = focus
        both = mention.sentence.word(mention.first - 1) in ("both", "all")
        if group.many and not (mention.many or both):
            return False
        if (mention.many or both) and not group.many and group.above is not None:
            group = group.above
        sex = mention.told[SEX][0].said if mention.told.get(SEX) else ""
        if group.kind and not self._kin(group.kind, mention.kind):
            return False
        if sex and group.sex not in ("", sex):
            return False
        self._name(group, mention)
        return True

    def _is_beside(self, mention: Mention, focus: Group) -> bool:
        """Whether it only says more exactly, or at last, what those are: Bess, the slider."""
        sentence, end = mention.sentence, focus.end
        if sentence.word(mention.first - 1) in ("both", "all"):
            several = self.all.members[0] if len(self.all.members) == 1 else self.all
            return several.is_several and self._is_named(mention, several)
        is_bare = mention.count is None or (mention.definite and mention.first == mention.at)
        is_name = sentence.parts[mention.at].look == "name"  # one musk, a Sternotherus carinatus
        is_bare = is_bare or (is_name and mention.count == focus.count == 1)
        fresh = focus.first.definite and focus.is_fresh and sentence.word(end) == ","
        is_bare = is_bare or (fresh and mention.count == focus.count == 1)  # mine, a male one
        told = bool(mention.told) and not focus.is_fresh
        if (
            mention.rank
            or told
            or not (is_bare or (not focus.kind and mention.count == focus.count))
        ):
            return False
        if sentence is not focus.first.sentence:
            return False
        between = [w for w in sentence.words[end : mention.first] if w not in (",", "so", "also")]
        if focus.kind:
            related = self._kin(focus.kind, mention.kind) or self._is_strange(focus, mention)
            loose, exact = self._is_loose(focus.kind), not self._is_loose(mention.kind)
            related = related or (loose and exact)
            if not related or between or mention.at - focus.first.at > 4:
                return False
        elif focus.first.head == "turtle":
            if (between and between != ["of"]) or (focus.many and mention.count and not between):
                return False
        elif between or not (focus.called or focus.first.head == "rank"):
            return False
        self._name(focus, mention)
        return True

    def _name(self, group: Group, mention: Mention) -> None:
        """Give a kind, or the more exact of two."""
        if not group.kind or self._is_loose(group.kind):
            group.kind, group.is_guess, group.named = mention.kind, mention.is_guess, mention
        if not group.many or (mention.count or 0) > 1:
            group.count = group.count or mention.count

    def _taken_up(self, mention: Mention, known: list[Group]) -> Group | None:
        """Who of those told of before is meant by: the slider, our sliders, the slider female."""
        sex = mention.told[SEX][0].said if mention.told.get(SEX) else ""
        fit = [
            one
            for one in known
            if one.many == mention.many
            and (not sex or one.sex in ("", sex))
            and not mention.rank
            and mention.told.keys().isdisjoint({*one.told} - {SEX})
        ]
        return fit[0] if len(fit) == 1 else None

    def _set_for(self, mention: Mention) -> Group | None:
        """Of which turtles these are some: three maps, two Ouachitas and a false map."""
        for one in reversed([*self.all.sets()]):
            if not one.many or not one.has_room(mention.count or 1):
                continue
            if one is self.all:
                return one
            if self._kin(one.kind, mention.kind) and one.is_whole_of(mention):
                return one
        return None

    def _is_another(self, mention: Mention, known: list[Group]) -> bool:
        """Whether it is told as one more of the same kind: a male slider and a female slider."""
        one = known[-1]
        sex = {detail.said for detail in mention.told.get(SEX, ())}
        if sex and one.sex and {one.sex} != sex:
            return True
        if mention.sentence.word(0) in _list("next"):
            return True
        if mention.called and all(mention.called != other.called for other in known):
            return True
        here = mention.sentence is one.first.sentence and not mention.is_predicate
        joined = mention.sentence.word(mention.first - 1) == "and"
        return here and (joined or one.count == 1)

    def _shared(self, mention: Mention, group: Group) -> Group:
        """A male and a female musk: the one in front is of the same kind."""
        before = self.all.members[-2] if len(self.all.members) > 1 else None
        if before is not None and not before.kind and before.first.sentence is mention.sentence:
            joined = mention.sentence.word(mention.first - 1) in ("and", ",")
            joined = joined and (bool(mention.told) or not before.told.keys() - {SEX})
            if joined and before.first.head == "sex":
                self._name(before, mention)
        return group

    def _some(self, mention: Mention, focus: Group | None) -> Group | None:
        """A sex, a rank or a name: some of those told of, or who was told of just now."""
        if mention.called:
            same = [one for one in self._everyone() if one.called == mention.called]
            if same:
                return same[0]
        sex = mention.told[SEX][0].said if mention.told.get(SEX) else ""
        if mention.head == "rank" and self._only() is not None:
            return None
        if focus is not None and self._is_of_focus(mention, sex, focus):
            return focus
        is_all = mention.sentence.word(mention.first - 1) == "all" and mention.rank == "one"
        if is_all and self.all.number == mention.count:
            return self.all  # all four are musks
        told = self.all.is_several or any(one.members for one in self.all.sets())
        if mention.many and mention.rank in ("other", "others", "rest") and not told:
            return None
        if mention.definite and sex and not mention.rank:
            own = [o for o in self._everyone() if o.sex == sex and o.many == mention.many]
            if len(own) == 1:
                return own[0]
        if (
            focus is not None
            and not focus.members
            and mention.sentence.word(mention.first - 1) == "and"
        ):
            focus = focus.above if focus.above and focus.above.is_open(bool(sex)) else focus
        if (above := self._open(focus, sex, mention.count or 1)) is not None:
            return self._add(mention, above)
        only = self._only()
        named = only is not None and (only.kind or only.first.head == "turtle")
        if named and only is not None and only.called and mention.called:
            return self._add(mention, self.all)  # perhaps another one
        if only is not None and named and (mention.count or 1) == 1:
            if not sex or only.sex in ("", sex):
                return only
            behind = mention.sentence.parts[mention.end : mention.end + 1]
            if not behind or behind[0].said != "one":
                return None
            group = self._add(mention, self.all)  # the male slider and the female one
            group.kind, group.named = only.kind, only.named
            return group
        if mention.head == "rank" or (mention.head == "name" and not mention.begins):
            return None
        kinded = any(one.kind for one in self._everyone())
        comes = self.alone or KIND in mention.sentence.words[mention.end :]
        may = mention.head == "name" or (comes and not kinded)
        return self._add(mention, self.all) if may else None

    def _is_of_focus(self, mention: Mention, sex: str, focus: Group) -> bool:
        """Whether those just spoken of are told of: Dolly, my girl; musks, three of them."""
        if mention.many or focus.many:
            if mention.sentence.word(mention.first - 1) == "all" and self.all.members:
                return False
            same = focus.count in (None, mention.count) and focus.is_fresh and focus.many
            if not (same and mention.many and mention.rank == "one"):
                return False
            focus.count = mention.count
            return True
        others = focus.above is not None and focus.above.is_open() and not focus.is_fresh
        named = focus.called and mention.called
        return not (others or named or focus is self.all) and focus.sex in ("", sex)

    def _open(self, focus: Group | None, sex: str = "", count: int = 1) -> Group | None:
        """Of whom others may still be told: those spoken of, or the last ones before them."""
        around = []
        while focus is not None:
            around.append(focus)
            focus = focus.above
        every = (*around, *reversed([*self.all.sets()]))
        fit = (one for one in every if one.is_open(bool(sex)) and one.has_room(count))
        return next((one for one in fit if not (sex and one.sex)), None)

    def _pronoun(self, mention: Mention, focus: Group | None) -> Group | None:
        """Of a pair she is one and he the other; a name before is whom it stands for."""
        sex = "female" if mention.called == "she" else "male"
        only = self._only()
        if only is not None and only.sex in ("", sex):
            return only
        own = [one for one in self._everyone() if one.sex == sex and not one.many]
        if len(own) == 1:
            return own[0]
        group = focus
        if (only or not self.all.members) and KIND in mention.sentence.words[
            mention.at : mention.at + 4
        ]:
            group = self._add(replace_count(mention), self.all)
        if group is None or group.many or not group.takes(SEX) or not group.is_fresh:
            if mention.at == 0 and self.names:
                return None  # which of them, nobody can say
            above = self._open(focus)
            group = self._add(replace_count(mention), above) if above is not None else None
        if group is not None and group.takes(SEX):
            group.tell(SEX, [Detail(mention.called, mention.sentence, mention.at)])
        return group

    def _kin(self, one: str, other: str) -> bool:
        """Whether two names may be of the same turtle: slider and yellow-bellied slider."""
        if not one or not other:
            return False
        words, others = {*one.split()}, {*other.split()}
        loose = (words - _list("any")) <= others or (others - _list("any")) <= words
        return loose or self._is_same(one, other)

    def _is_same(self, one: str, other: str) -> bool:
        """Whether two names are of one kind."""
        kind, _ = self._kinds.get(one, ("", False))
        strange = not kind and one[:_STEM] == other[:_STEM]
        return strange or kind == self._kinds.get(other, (" ", False))[0]

    def _is_loose(self, kind: str) -> bool:
        """Whether a name fits other kinds, too."""
        return self._kinds.get(kind, ("", False))[1]

    def _is_strange(self, group: Group, mention: Mention) -> bool:
        return group.kind not in self._kinds or mention.kind not in self._kinds


def replace_count(mention: Mention) -> Mention:
    """One more turtle, spoken of where another was."""
    return replace(mention, count=1, many=False, kind="", told={}, called="", rank="")
