"""The bodies drawn at random lie beside the tests; other rooms' tests draw from them too."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
