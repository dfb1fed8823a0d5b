"""Tries at random, at length, what the tests try a little of; prints the table of tests/RESULTS.md.

    python tests/fuzz                       # some minutes
    python tests/fuzz --typed 100000 --mutated 10000 --talked 2000 --tanks 2000 --killed 500

Each fault is told below the table. It becomes a row of found.yaml before it is mended. The exit
code is 1 where there was any. It runs as whoever starts it, so try it as an ordinary user too.
"""

from __future__ import annotations

import argparse
import getpass
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
import where  # noqa: F401
from killed import KILLED, killed
from mutated import MUTATED, mutated
from talked import TALKED, talked
from tally import tried_out
from thrown import TANKS, thrown
from typed import MEANT, TYPED, meant, typed

_KINDS = {
    "typed": ("typed strings", TYPED, typed, 5000),
    "meant": ("strings of known meaning", MEANT, meant, 2000),
    "mutated": ("mutated setups", MUTATED, mutated, 500),
    "talked": ("random talks", TALKED, talked, 200),
    "tanks": ("random tanks", TANKS, thrown, 50),
    "killed": ("talks killed", KILLED, killed, 50),
}
_HEAD = (
    "| tried | how often | how it ended | lost | traceback | misread | broken |\n"
    "|---|---|---|---|---|---|---|"
)


def main() -> int:
    """Run every kind as often as was asked."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    for name, (what, _, _, usual) in _KINDS.items():
        parser.add_argument(f"--{name}", type=int, default=usual, help=f"{what} ({usual})")
    asked = vars(parser.parse_args())
    print(f"As {getpass.getuser()}:\n\n{_HEAD}", flush=True)
    faults = []
    for name, (what, examples, trial, _) in _KINDS.items():
        if asked[name]:
            tally = tried_out(what, examples, trial, asked[name])
            faults += tally.told
            print(tally.row, flush=True)
            print(f"{what}: {tally.seconds:.0f} s", file=sys.stderr, flush=True)
    print("\n".join(["", *faults]))
    return int(bool(faults))


if __name__ == "__main__":
    sys.exit(main())
