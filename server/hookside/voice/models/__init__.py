"""Voice models in the data folder: which are there, adding one from the network or from disk, removing one."""

from hookside.voice.models.adding import add_file, add_language
from hookside.voice.models.shelf import Model, Models, language_of
from hookside.voice.models.trouble import CannotAdd

__all__ = ["CannotAdd", "Model", "Models", "add_file", "add_language", "language_of"]
