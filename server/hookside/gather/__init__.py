"""What to have at hand before the first stitch: hook, yarn by colour, notions, and what the text forgets to name."""

from hookside.gather.gathered import gather
from hookside.gather.listing import Caution, Gathered, Item, Wanted

__all__ = ["Caution", "Gathered", "Item", "Wanted", "gather"]
