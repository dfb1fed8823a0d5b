"""One audit for each setup: what was judged once in a test run is not judged again.

An audit follows from the answers alone, so the same answers get the audit that was made for them,
under the title that is asked for. Advice is kept for an audit and a day. What is kept is bounded,
and a mutation run, which changes the core between two audits, keeps nothing.
"""

from __future__ import annotations

import os
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

from interview import assembly
from interview.advice.advise import Advice
from interview.audit.audit import Audit
from interview.graph.interview import Interview

__all__ = ["anew", "keep_audits"]

_audits: OrderedDict[Any, Audit] = OrderedDict()
_advice: OrderedDict[Any, tuple[Audit, Advice]] = OrderedDict()
_MOST_AUDITS, _MOST_ADVICE = 24, 8  # about 6 MB each
anew: Callable[[Interview, str], Audit] = assembly.audit_of
"""An audit that is made whatever is kept."""
_advise = assembly.advice_of


def keep_audits() -> None:
    """Let `assembly.audit_of` and `assembly.advice_of` keep what they made."""
    if "MUTANT_UNDER_TEST" not in os.environ:
        assembly.audit_of, assembly.advice_of = _audit_of, _advice_of


def _audit_of(interview: Interview, title: str) -> Audit:
    key = interview.system, repr(sorted(interview.given().items()))
    audit = _audits.get(key) or anew(interview, title)
    _keep(_audits, key, audit, _MOST_AUDITS)
    return audit if audit.title == title else replace(audit, title=title)


def _advice_of(audit: Audit, today: date | None = None) -> Advice:
    key = id(audit.tank), audit.title, today or date.today()
    _, advice = _advice.get(key) or (audit, _advise(audit, today))
    _keep(_advice, key, (audit, advice), _MOST_ADVICE)
    return advice


def _keep(kept: OrderedDict[Any, Any], key: Any, made: Any, most: int) -> None:
    """Keep what was made, the last used last, and drop what was used longest ago."""
    kept[key] = made
    kept.move_to_end(key)
    if len(kept) > most:
        kept.popitem(last=False)
