"""``python -m calculators``."""

import sys

from .cli import main

sys.exit(main())
