"""Quantiles of the normal distribution."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["normal_quantile"]

_Floats = NDArray[np.float64]
# Numerators and denominators, highest power first: within 0.425 of the middle, then by
# √(−ln share) up to 5 and beyond. Wichura 1988, algorithm AS 241, as in Python's statistics.
_MIDDLE = (
    (
        2509.0809287301227,
        33430.57558358813,
        67265.7709270087,
        45921.95393154987,
        13731.69376550946,
        1971.5909503065513,
        133.14166789178438,
        3.3871328727963665,
    ),
    (
        5226.495278852854,
        28729.085735721943,
        39307.89580009271,
        21213.794301586597,
        5394.196021424751,
        687.1870074920579,
        42.31333070160091,
        1.0,
    ),
)
_SIDE = (
    (
        0.0007745450142783414,
        0.022723844989269184,
        0.2417807251774506,
        1.2704582524523684,
        3.6478483247632045,
        5.769497221460691,
        4.630337846156546,
        1.4234371107496835,
    ),
    (
        1.0507500716444169e-09,
        0.0005475938084995345,
        0.015198666563616457,
        0.14810397642748008,
        0.6897673349851,
        1.6763848301838038,
        2.053191626637759,
        1.0,
    ),
)
_TAIL = (
    (
        2.0103343992922881e-07,
        2.7115555687434876e-05,
        0.0012426609473880784,
        0.026532189526576124,
        0.29656057182850487,
        1.7848265399172913,
        5.463784911164114,
        6.657904643501103,
    ),
    (
        2.0442631033899397e-15,
        1.421511758316446e-07,
        1.8463183175100548e-05,
        0.0007868691311456133,
        0.014875361290850615,
        0.1369298809227358,
        0.599832206555888,
        1.0,
    ),
)


def normal_quantile(share: _Floats) -> _Floats:
    """Standard scores below which a share of the normal distribution lies.

    Args:
        share: between 0 and 1, neither of them

    Within 1e-14 of the exact value, relative or absolute.
    """
    off = np.asarray(share, dtype=float) - 0.5
    scores = off * _ratio(_MIDDLE, 0.180625 - off * off)
    outer = np.abs(off) > 0.425
    if outer.any():
        less = np.where(off[outer] < 0, np.asarray(share)[outer], 1.0 - np.asarray(share)[outer])
        root = np.sqrt(-np.log(less))
        far = np.where(root <= 5.0, _ratio(_SIDE, root - 1.6), _ratio(_TAIL, root - 5.0))
        scores[outer] = np.copysign(far, off[outer])
    return scores


def _ratio(tables: tuple[tuple[float, ...], tuple[float, ...]], at: _Floats) -> _Floats:
    above, below = (np.polyval(table, at) for table in tables)
    ratio: _Floats = above / below
    return ratio
