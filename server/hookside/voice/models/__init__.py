"""Voice models in the data folder: which are there, removing one. `adding.py`, which needs more of the library, brings
one from the network or from disk, and is loaded for that alone."""

from hookside.voice.models.shelf import Model, Models, language_of
from hookside.voice.models.trouble import CannotAdd

__all__ = ["CannotAdd", "Model", "Models", "language_of"]
