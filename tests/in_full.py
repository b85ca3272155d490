"""Whether the tests run in full: hours of cases of which the suite takes a sample."""

import os
from typing import Final

IN_FULL: Final = os.environ.get("CREWAPP_TESTS") == "all"
"""Set by ``bash .setup/test all``."""

EVERY_FRAME: Final = IN_FULL or os.environ.get("CREWAPP_TESTS") == "drawn"
"""Set by ``bash .setup/test drawn`` as well: every page is drawn in every test that opens one."""
