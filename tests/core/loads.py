"""What the tests of glass, masses and floor share: constants, and the quantities by name."""

from __future__ import annotations

from interview.core.sheets import read_formula
from interview.core.structure import enclosure, floor, glass
from interview.core.structure import weight as structure
from interview.core.wiring import Wiring

PSF = 47.880258980  # Pa, NIST SP 811
G = 9.80665
QUANTITIES = Wiring(
    {
        name: read_formula(getattr(module, name))
        for module in (structure, glass, floor)
        for name in module.__all__
    }
    | {"pane_thickness": read_formula(enclosure.pane_thickness)}
)
