"""Pattern and gauge to outline, openings, size, yarn and stuffing. Every figure says how sure it is."""

from hookside.shape.errors import CannotBeMeasured
from hookside.shape.measure import Asked, measure
from hookside.shape.measures import Measures, PieceMeasures, Spread

__all__ = ["Asked", "CannotBeMeasured", "Measures", "PieceMeasures", "Spread", "measure"]
