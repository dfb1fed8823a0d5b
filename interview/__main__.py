"""`python -m interview` is `tankside`."""

import sys

from interview.cli import main

sys.exit(main())
